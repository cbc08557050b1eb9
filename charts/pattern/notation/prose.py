"""Sentences that are no work: talk, tips, checks, assembling. They are never a fault and never a part of a row."""

from __future__ import annotations

import re

from ..when_used import when_used

#: How a sentence of talk begins (common practice, no source).
_LEADS = when_used(
    r"(?:i|i'm|i've|i'll|i'd|you|you'll|you've|your|we|we'll|this|these|those|there|it|it's|its|they|he|she|that|that's|note|notes|"
    r"tip|tips|n\.?b|hint|if|when|whenever|remember|make sure|be sure|be careful|be aware|careful|keep in mind|please|as you|because|since|"
    r"while|once|after|before|where|why|how|what|who|feel free|don'?t|do not|for (?:the|a|best|me|my|this|example|more|those)|"
    r"in (?:the|this) (?:next|photo|picture|video|pattern|sample|row|round)|use|using|insert|stuff|sew|weave|embroider|pull|pin|fold|"
    r"block|wash|hide|close|gather|thread|leave|put|mark|move|place|count|photo|picture|see|fill|press|steam|cut|tie|knot|try|check|"
    r"measure|position|attach|glue|add|wrap|with (?:a |your )?(?:yarn |tapestry |darning )?needle|continue stuffing|begin stuffing|"
    r"start stuffing|finish stuffing|congratulations|yay|great|good|well done|almost|all done|enjoy|happy|now (?:you|we|it|that|i)|"
    r"here|the (?:last|first|next|beginning|turning|pattern|photo|ch|chain|piece|work|total|rest|right|wrong|hat|bag|end|other|following|instructions|sides|edges|stitches|yarn)|"
    r"last|first|each|every|all|most|some|any|another|another way|another option|alternatively|optional|optionally|otherwise|instead|"
    r"repeat until|repeat (?:row|rnd|round)s? .* until|continue .* until|work .* until|keep .* until|is|are|at this point|by now|and|but|so|or|also|"
    r"easy|simple|pattern|materials|gauge|finished|size|hook|yarn|skill|difficulty|special|abbreviations|stitch|stitches|"
    r"with right|with rs|with ws|with wrong|turn (?:the )?(?:work|piece|bag|hat|pouch) (?:inside|right)|slip|carry|drop|pick up|hold|flip|press|"
    r"designed|copyright|©|happy|share|join (?:us|me|the)|to (?:make|work|finish|begin|start|change|create|do|keep|avoid|close|sew|assemble)|"
    r"through|across|sewing|assembly|finishing|lay|line|lining|attaching|cover|from (?:here|this|now)|ok|okay|let's|let|just|working (?:flat|in))\b"
)
_TELLS = when_used(
    r"\b(?:should|would|could|might|may|will|can|want|need|like|prefer|think|found|helps?|means?|was|were|been|because|really|"
    r"looks?|feel|easier|harder|nice|pretty|beautiful|sure|don'?t|doesn'?t|you|your|i|my|we|our)\b"
)
_WORK = when_used(
    r"\b(?:\d+|one|two|three)? ?(?:sc|hdc|dc|htr|tr|dtr|sl st|ss|inc|dec|ch|\w*\dtog)\b[^.]{0,12}\b(?:in|into|around|across|over|each|next|\d+|to end)\b"
)


#: A place that a hook goes into, or so many of a stitch that something unknown is done with.
PLACE = when_used(
    r"\b(?:next|each|every|same|first|second|third|last|other|\d+(?:st|nd|rd|th)) (?:of )?(?:the )?(?:next )?(?:\d+ )?"
    r"(?:sts?|stitch(?:es)?|sc|dc|hdc|htr|tr|dtr|chs?|chains?|sps?|spaces?|lps?|loops?|ch-\d+|shells?|groups?|rings?)\b"
    r"|\d+ (?:sts?|stitches|sc|dc|hdc|htr|tr|chs?) (?:together|tog)\b"
    r"|^(?!makes?|totals?|leav|giv|approx|about|only|now|ha[sv]|was|were|are|is|counts?|with|for|plus|or|and|equals?|around|"
    r"adds?|needs?|use[sd]?|over|skips?)[a-z]{2,} \d+ (?:sts?|stitches|sc|dc|hdc|htr|tr|chs?)\b"
)
#: What is done with yarn or cloth, done with so many stitches: that is work, though not known.
_HANDLES = when_used(
    r"(?:insert|sew|weave|pull|pin|fold|block|hide|close|gather|thread|put|move|place|fill|press|cut|tie|knot|attach|glue|add|"
    r"wrap|slip|carry|drop|pick up|hold|flip|lay|cover) \d+ (?:more )?(?:sts?|stitches|sc|hdc|dc|htr|tr|chs?|chains?)\b"
)


_TALK = when_used(
    r"(?:i|i'm|i've|i'll|you|you'll|you've|your|we|we'll|it|it's|they|note|notes|tip|tips|n\.?b|hint|if|when|remember|make sure|be sure|congratulations)\b(?! \d)"
)


#: What a photograph shows.
_PICTURED = when_used(r"(?:\b(?:in|on) (?:my|the|these|our) (?:photos?|pictures?|samples?)|\b(?:pictured|modell?ed|shown))\b.{0,24}\b(?:is|are|was|were|has|have|had|used|took)\b")


def talks(low: str) -> bool:
    """Whether a sentence is spoken to the reader or of the writer: it is no work, whatever it names."""
    return bool(_TALK.match(" ".join(low.split()).strip(" .!*-(")) or _PICTURED.search(low))


def is_prose(low: str) -> bool:
    """Whether a sentence in lower case that could not be read as work is talk and no work.

    >>> is_prose("i like to keep my sc a little loose here"), is_prose("flurb in next 3 sts")
    (True, False)
    """
    low = " ".join(low.split()).strip(" .!*-")
    words = re.findall(r"[a-z']+", low)
    if not words:
        return not re.search(r"\d", low)
    if _PICTURED.search(low):
        return True
    if (_WORK.search(low) and not _SAID.match(low)) or _HANDLES.match(low):
        return False
    if _LEADS.match(low):
        return True
    if len(_TELLS.findall(low)) >= 2:
        return True
    return len(words) >= 6 and not _NAMES.search(low) and not PLACE.search(low)


#: Talk that names work all the same: checks, comparisons, aims.
_SAID = when_used(
    r"(?:i|i'm|i've|you|you'll|your|this|these|it|that|note|tip|if|when|remember|make sure|be sure|the last|the first|last|first|there|"
    r"we|each (?:st|stitch)|every|they|here|for (?:the|a|this|example)|because|while|after|once|before|in this|since|repeat|continue .* until|do not|don'?t|the)\b"
)
_NAMES = when_used(
    r"(?:\b|(?<=\d))(?:(?:single|double|treble|triple) crochets? (?:in|into|around)|sc|hdc|dc|tr|htr|dtr|sts?|stitch(?:es)?|ch|chains?|sp|row|rnd|round|sk|skip|inc|dec|\d+)\b"
)
