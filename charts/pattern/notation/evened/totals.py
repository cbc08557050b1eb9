"""What a row comes to, told behind its work: "until 12 sts remain", "you will have an 8-petal flower".

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_NUMBER = rf"(?:\d{{1,3}}|{lexicon.NUMBER_WORDS})"
_HAVE = r"(?:(?:there|you|we)(?:'ve| are| is| have| will have| will be|'re)(?: now)?(?: got| made| left with| down to)? )"
#: "until there are only 8 sts left": behind work that changes how many there are, what the round comes to.
_UNTIL = when_used(
    rf"(?P<lead>,?\s\(?)(?:until|till|til|'til) {_HAVE}?(?:only |just )?(?:the last )?(?P<n>{_NUMBER})(?P<noun> (?:sts?|stitches))?"
    r"(?P<how> (?:are |is |have been |were )?(?:left|remain(?:s|ing)?|made|worked|in total|in all|total))?(?: (?:on|in|around|of) (?:the |your |this )?(?:round|rnd|row|circle|piece))?(?P<close>\)?)"
    r"(?=\s*(?:$|[.;!(\[]|, ?(?:fasten|finish|cut|join|leav|close|stuff|break|sew|tie)))"
)
_DECREASES = when_used(r"\b(?:inv(?:isible)? ?)?dec(?:'?d|s|r|rease[sd]?|reasing)?\b|\d ?tog\b|\b[a-z]+[2-9]tog\b")
_INCREASES = when_used(r"\binc(?:s|r|rease[sd]?|reasing)?\b|\b(?:[2-9]|two|three) ?(?:sts|sc|hdc|dc|htr|tr)s? (?:in|into) (?:the )?(?:next|each|every|same)\b")
_TO_THE_END = when_used(r"\b(?:around|across|round|(?:to|until) (?:the )?end)\W*$")
_TURNS = when_used(r"\bturn")
_LEFT = when_used(r"left|remain")
#: "an 8-petal flower", "a flower with 8 petals".
_FLOWER = when_used(
    rf"(?P<lead>\b(?:have|has|got|get|makes?|made|gives? you|creates?|forms?) )(?P<a>an? (?:[a-z]+ )?)(?P<n>{_NUMBER}) ?-?(?P<petals>petal(?:s|led|ed)?) (?:flower|rosette|daisy|blossom)"
    rf"|(?P<lead2>\b(?:have|has|got|get|makes?|made|gives? you) )(?P<b>an? (?:[a-z]+ )?(?:flower|rosette|daisy|blossom|circle|ring)(?: shape)? (?:with|of|that has) )(?={_NUMBER} (?:petals|loops|points|spaces|sps))"
)
#: "(having 8 groups with ch 1 between)", "(thus forming 9 loops)": a count in brackets.
_IN_BRACKETS = when_used(
    rf"(?<=\()(?P<lead>(?:thus |so |for )?(?:forming|making|having|giving|creating|to form|to make|to give|a total of|total of)(?: you)?(?: a total of)? )(?={_NUMBER} (?:\d-?ch |ch-?\d |ch |chain )?"
    r"(?:loops?|lps?|sps?|spaces?|petals?|groups?|shells?|clusters?|points?|arcs|arches|bars|spokes|scallops|picots|sts|stitches)(?: (?:with|in all|in total|altogether|around|on)\b[^()]*)?\))"
)
#: "(2 A, 1 B, 1 A)" behind a row: what it has in each yarn, called by a letter.
_BY_YARN = when_used(r"(?<=[.;] )\((?P<parts>\d{1,3} [a-f](?:, ?\d{1,3} [a-f])*)\)(?=\W*$)")
#: "12 dc, 12 ch sp": so many spaces, and none of 12 chains.
_SPACE_ONE = when_used(rf"(?P<lead>(?<=[\s.(>])\d{{1,3}} (?:sts?|sc|hdc|dc|htr|tr|puffs?|clusters?|popcorns?|groups?)(?:,| and| &| \+|/) ?{_NUMBER}) ch[- ]?(?P<noun>sp|space|lp|loop)(?=\W*$)")
#: "There'll be 15 dc per side", "11 dc on each side": behind a row, what its sides have.
_PER_SIDE = when_used(
    rf"(?<!having)(?<!working)(?<!creasing)(?<!crease)(?<!\bwith)(?<!\bdec)(?<!\binc)(?P<lead>(?:[-\u2013\u2014.;,:=]|\s)\s?)(?:(?:so |and |now )?(?:there(?:'ll| will| should)(?: now)? be|you(?:'ll| will| should)?(?: now)? have|that(?:'s| is| makes| gives(?: you)?)|giving(?: you)?|making|=) ?)?"
    rf"{_NUMBER}(?:(?<=\d)| (?:sts?|stitches|sc|h?dc|h?tr|dtr|dc groups|groups|clusters|holes|sps|spaces))(?: (?:now|in total|altogether))? {{1,2}}(?:per|(?:on|along|to|for|in|down) (?:each|every|all(?: four)?|a)|each|a) sides?(?: now)?(?: of (?:the |your )?(?:square|block|hexagon|motif|piece))?(?: (?:between|plus|and|not counting|excluding)\b[^.;()]{{0,30}})?(?=\W*$|\s+(?:fasten off|finish off|end off|weave in|break (?:off|yarn)|cut (?:yarn|and))|[.!]\s+(?:fasten|finish|break|cut|change|do not|don't|weave|end off|turn|now|you|this|drop|join (?:in )?[a-z]{{1,9}} (?:to|in|with)\b))"
)
#: "Sc in each st, 28. Don't cut": what the row comes to, before a remark.
_COUNT_THEN = when_used(r"(?P<lead>\b(?:in (?:each|every) [a-z]+(?: around| across)?|across|around|to (?:the )?end)), (?P<n>\d{1,3})\.(?= (?:don't|do not|never) (?:cut|break|fasten|turn|join)\b)")
#: "... join. 36 sc. Straps are on the next page.": what the row comes to, before a remark.
_COUNT_BEFORE = when_used(
    r"(?<=[.!)]) (?P<n>\d{1,3}) (?P<st>sc|hdc|dc|htr|tr|sts)\.(?= (?!\w+ (?:to|in|into|as|and) )[a-z](?:(?!\b(?:sc|hdc|dc|htr|tr|dtr|ch|chain|sl|ss|st|sts|join\w*|turn\w*|work\w*|repeat\w*|rep|make|making|fasten|row|rnd|round|skip|sk|around|loops?|inc\w*|dec\w*|change|colou?r|yarn|side|edge)\b|[\d*()\[\]]).){6,90}$)"
)
#: "(8 sc + 2 x ch 5)": in a count, so many runs of chains.
_TIMES_CHAINS = when_used(r"(?<=[a-z] [+&] )(?P<n>\d{1,2}) ?(?:x|lots of|times) ?(?:ch[- ]?(?P<a>\d{1,2})|(?P<b>\d{1,2})[- ]?ch)(?: (?:sps?|loops?|spaces?))?(?=\)\W*$)")
#: "... and you'll have four little clusters", "you should have 4 groups of dc": what there is, without what is like it.
_HAVE_SO_MANY = when_used(
    rf"(?P<and>,? (?:and|so|then) )?(?P<you>you(?:'ll| will| should|'d| would)?(?: now)? (?:have|see) )(?P<n>{_NUMBER}) (?P<like>(?:little|cute|lovely|neat|nice|pretty|small|tiny|whole|complete|full|beautiful|separate|sweet) )?"
    r"(?P<noun>clusters|groups|clumps|bunches|petals|shells|loops|corners|sets)(?P<of> of (?:\d )?(?:sc|hdc|dc|htr|tr|double crochets?|trebles?|stitches|sts))?(?=\s*(?:[.,;!:)]|$))"
)
_FROM_STAR = when_used(r"\b(?:rep(?:eat)?|rpt)\b[^.;]{0,12}\*$")
#: What is worked more than once.
TWO = 2
#: "Repeat for a total of 5 points", "until you have 5 points", "make 5 in total": how often what stands before is worked in all.
_SO_MANY = when_used(
    rf"(?P<lead>(?<=[*)\]\s,;.])\s?)(?:(?P<rep>rep(?:eat)?|rpt|continue)(?: (?:this|that|it|these|the (?:sequence|pattern|steps?)|all of this|as (?:above|before)))? ?)?"
    rf"(?:for|(?:in order )?to (?:make|form|get|have|create)|until (?:you(?:'ve| have| get| reach| make)(?: got| made)?|there are)|(?P<make>make|work|do)) ?(?P<total>(?:a total of|in all|in total) )?(?P<n>{_NUMBER}) ?"
    r"(?P<noun>points|petals|loops|lps|times|spikes|rays|arms|leaves|scallops|shells|repeats|peaks|segments|fingers|curls|arches|frills)?(?P<all> (?:in (?:total|all)|altogether|all (?:a)?round))?(?=\s*(?:$|[.,;(\[]))"
)
#: "Turn. 4 sts before center ch-3 sp.": how many stand there, as a sentence of its own.
_BESIDE = when_used(
    rf"(?<=[.;] ){_NUMBER} (?:sts?|stitches|sc|hdc|dc|htr|tr) (?:before|after|(?:on |at )?(?:each|either|both) sides? of|between) (?:the |each )?(?:cent(?:er|re)|marker|marked|corner|ch-?\d|points?)\b[^.;()]{{0,24}}(?=\s*[.;]|\s*$)"
)


#: "..., sc in next 3 sc for a total of 6 sc, join": the count, before what closes the round.
_TOTAL_OF = when_used(
    rf"(?<=[a-z0-9)])(?P<lead>,? (?:(?:so )?for|making|giving(?: you)?|to make|to give(?: you)?|which (?:makes|gives)(?: you)?) an? (?:grand )?total of )"
    rf"(?P<count>(?:\d{{1,3}}|{lexicon.NUMBER_WORDS}) ?(?:sts?|stitches|sc|h?dc|h?tr|dtr|(?:single|double|half double|treble) crochets?))(?=\s*(?:$|[.,;]))"
)


#: "(12 + 12 = 24 sc)", "(6+6+2 = 14)": a count with the sum that it is.
_SUM = when_used(r"(?<=[(\[])(?P<sum>\s*\d{1,3}(?:\s*\+\s*\d{1,3})+\s*=)(?=\s*(?P<n>\d{1,4})\b)")


#: "4 shells + a half shell at each edge": what stands at the edges, behind a count.
_HALVES = when_used(rf"(?P<n>\b{_NUMBER} (?:shells?|fans?|groups?|clusters?|scallops?|blocks?|petals?)(?:,? (?:and )?{_NUMBER} (?:sc|hdc|dc|htr|tr|sts))?)(?P<said>,? ?(?:\+|&|and|plus|with) (?:an? |1 |one )?half[- ](?:an? |of an? )?(?:shells?|fans?|groups?|clusters?|scallops?|blocks?|petals?|one)(?: (?:at|on) (?:each|either|both) (?:edges?|ends?|sides?))?)")

#: "60 obv", "still 16, of course", "18 sts - and 18 at the end of every row from now on": what is said behind a count.
_SAID_BEHIND = (
    r"(?:obv|obviously|naturally|of course|as always|as ever|as usual|as before|as promised|as it should|(?:yay|hooray|hurrah|phew|ta-da|tada|voila)|folks|everyone|friends|ladies|dear ones|lol|haha|hehe|exactly|precisely|no more,? no less|"
    r"same as before|same again|unchanged|thankfully|luckily|hopefully|i promise|i hope|i think|if all went well|if you counted right(?:ly)?|(?:and )?count (?:them|again|to be sure)|from (?:now|here) on(?:wards)?|for the rest of the [a-z]+|throughout)"
)
_COUNT_SAID = when_used(
    rf"(?P<lead>(?:^|[.!;:)\u2013\u2014-]|\b(?:sts?|sps?|lps?|chs?)\s(?=\s)|\b(?:a?round|across|join|turn|end))\s*[-\u2013\u2014:=]*\s*)(?P<still>(?:(?:still|again|now|that's|it's|so|always|makes|stays) )*)(?P<n>\d{{1,3}})(?P<noun> (?:sts?|stitches|sc|h?dc|h?tr|dtr))?(?P<behind>[,;]? *(?:[-\u2013\u2014]+ ?)?{_SAID_BEHIND}(?:,? {_SAID_BEHIND})*)(?=\W*$|\s*(?:[.!;\n]|fasten|finish|cut|break))"
)
_COUNT_ALWAYS = when_used(
    r"(?P<n>\b\d{1,3} (?:sts?|stitches|sc|h?dc|h?tr|dtr))(?P<behind>,? ?(?:[-\u2013\u2014]+ ?)?(?:and )?(?:again |always |still |the same |(?P<same>\d{1,3}) )?(?:sts )?(?:at the end of|in|on|for|after) (?:every|each|all|any)(?: single| one)? ?(?:of the )?(?:row|rnd|round)s?(?: (?:from (?:now|here) on(?:wards)?|after this|to come|that follows?|from this one|throughout|hereafter))?(?P<so>,? (?:so|and|but|please) (?:do |please |keep |go on )*(?:count\w*|check\w*)(?: \w+)?)?)(?=\W*$)"
)
#: "Back to 71.": what the row comes to again.
_BACK_TO = when_used(r"(?P<lead>(?<=[.;)] )|(?<=, ))(?:and |so |now )*(?:(?:we(?:'re| are)|you(?:'re| are)) )?back (?:up |down )?(?:to|at) (?P<n>\d{1,3})(?P<noun> (?:sts?|stitches|sc|h?dc|h?tr))?(?: again)?(?=\W*$)")
#: "So that you are left with 36 stitches".
_LEFT_WITH = when_used(r"(?P<so>,? ?(?:so(?: that)?|until|and) (?:now )?(?:you(?:'re| are| will be)|there are|we(?:'re| are)) (?:left|down) (?:with|to) )(?P<n>\d{1,3})(?P<noun> (?:sts?|stitches|sc|h?dc|h?tr|dtr))?(?=\s*(?:[.;(]|$))")
#: "28 sts, ending on a dc", "112 dc after Row 5", "13 sts a side counting the popcorn": a count, and what is said with it.
_ENDS_ON = when_used(
    r"(?P<n>(?:(?<=^)|(?<=[.;)] )|(?<=[a-z] )|(?<=[-\u2013] ))\d{1,3}\s+(?:sts?|stitches|sc|h?dc|h?tr|dtr))(?P<said>,? (?:and )?(?:you )?(?:ending|finishing|end|finish|ends) (?:up )?(?:on|with|in) (?:an?|one) (?:sc|h?dc|h?tr|dtr|st)|,? (?:after|at the end of) (?:row|rnd|round) \d{1,2})(?=\W*$)"
)
_SIDE_WITH = when_used(r"(?P<n>\b\d{1,3} (?:sts?|stitches|sc|h?dc|h?tr|dtr) (?:per|a|each|on each|to a|on every) side)(?P<said>,? (?:counting|including|with|not counting) [^.;()]{3,40})(?=\W*$)")
#: "80 sts around.": what the round comes to, as a sentence of its own.
_STS_AROUND = when_used(r"(?<=[.;] )(?P<n>\d{1,3}) (?P<noun>sts?|stitches) (?:all )?(?:a?round|in the round|across)(?=\W*$)")
#: "... join to first sc. 6 shells. End off.": what there is, before the end.
_GROUPS_THEN_END = when_used(
    rf"(?<=[.;)] )(?P<n>{_NUMBER}) (?P<noun>(?:mini |small |large )?(?:shells|fans|petals|scallops|clusters|groups|loops|lps|points|v-sts|picots|spaces|sps|arches|puffs|popcorns|bobbles|squares|blocks|windows))\.\s(?=\s*(?:end|fasten|finish|break|cut|tie|bind)\b)"
)
#: "48 sc each round" behind a run of rounds.
_EACH_ROUND = when_used(r"(?P<n>(?:^|(?<=[.!;:)] )|(?<=- ))\d{1,3} (?:sts?|stitches|sc|h?dc|h?tr|dtr))(?P<each>,? (?:in |on |for |at the end of )?(?:each|every|per|all)(?: of (?:these|the))? (?:row|rnd|round)s?)(?=\W*$)")
#: "22 dc, or 7 blocks": the same count in other things.
_IN_OTHERS = when_used(rf"(?P<n>\b\d{{1,3}} (?:sts?|stitches|sc|h?dc|h?tr|dtr|[sd] c|h d c))(?P<or>,? (?:or|that is|that's|which is|i\.e\.|=) {_NUMBER} (?:whole |full |complete |solid )?(?:blocks?|bls?|mesh(?:es)?|squares|groups|patterns?|repeats?)(?: (?:again|in all|altogether))?)(?=\W*$|\.\s)")
#: "24 sc and two handles": with things that are no stitches.
_AND_THINGS = when_used(rf"(?P<n>(?<![a-z] )(?<!in )\b\d{{1,3}} (?:sts?|stitches|sc|h?dc|h?tr|dtr))(?P<things>,? ?(?:and|\+|&|plus) (?:{_NUMBER}|one|an?) (?:(?:big|small|long|little|open) )?(?:windows?|boxes|handles?|straps?|buttonholes?|armholes?|thumb ?holes?|slits?|openings?|ears?|eyes?|legs?|arms?|tails?|ties)(?: (?:loops?|gaps?|openings?))?)(?=\W*$)")


_PIECE = r"(?:fronts?|backs?|sleeves?|bod(?:y|ies)|sides?|shoulders?|panels?|halves|half|raglans?|armholes?|bust|edges?)"
_OF_PIECE = rf"{_NUMBER}(?: (?:sts?|stitches|sc|h?dc|h?tr))?(?: (?:each|per|for|on|at|in|every|the|both|left|right|&|and|\+|,|{_PIECE}))*"
#: "92 dc: 30 / 16 / 30 / 16", "76 dc: 26 each front & back, 12 each sleeve": a count, and how it lies about the yoke.
_PARTED = when_used(
    rf"(?P<count>\b(?P<n>\d{{1,3}}) (?:sts?|stitches|sc|h?dc|h?tr|dtr))(?P<said> ?[:=(;,\u2013\u2014-]+ ?(?:\d{{1,3}}(?: ?[/|+\u2013-] ?\d{{1,3}})+|{_OF_PIECE}(?: ?[,;/&+] ?(?:and )?{_OF_PIECE})+)\)?)(?=[)\]]?\W*$)"
)
#: "+ 8 underarm ch": chains, told by where they lie.
_UNDERARM = when_used(r"(?<=\d )(?P<said>(?:new |added )?(?:under-?arm|arm-?hole|neck|front|thumb) )(?=ch(?:ain)?s?\b)")


#: "- 10 dc, ch-2 sp", ". 14 dc and a ch-2 sp": a count with the one space beside it.
_AND_SPACE = when_used(
    rf"(?P<lead>[\u2013\u2014-] ?|[.;] )(?P<count>{_NUMBER} (?:sts?|stitches|sc|h?dc|h?tr|dtr))(?:,| and| &| \+| plus)(?: (?:and|an?|the|one))* (?:cent(?:er|re) |middle |spine |corner )?(?P<sp>(?:ch(?:ain)?[- ]?\d{{0,2}}|\d{{1,2}}[- ]?ch)[- ]?(?:sp|space|lp|loop))(?=\W*$)"
)
#: ". 2 V with ch-2 between": behind a row, groups and what lies between them.
_WITH_BETWEEN = when_used(rf"(?<=[a-z)])[.;] (?P<said>{_NUMBER} (?:v(?:-?sts?)?'?s?|shells?|groups?|clusters?|fans?|\d-?dc groups?),? (?:with|and) (?:an? |1 )?(?:ch(?:ain)?[- ]?\d{{1,2}}|\d{{1,2}}[- ]?ch)(?: ?(?:sp|space|loop))? (?:in )?between(?: them)?)\.?(?=\W*$)")
_FOR_SIDE = rf"{_NUMBER}(?: ?-?(?:sts?|stitches|sc|h?dc|h?tr|dtr|ch(?:-?\d)?(?: ?sps?)?|sps?|groups?|clusters?|puffs?|shells?|v-?sts?))"
#: "{per side: 6 dc + 9 hdc}", "(each side: 4 dc, 4 hdc)": behind a row, what its sides have.
_SIDE_HAS = when_used(rf"[({{\[](?:(?:on|along|for) )?(?:per|each|every|all|a) sides? ?(?:has|have|:|=|-)? ?{_FOR_SIDE}(?: ?(?:[+,&/]|and|plus) ?{_FOR_SIDE})*[)}}\]](?=\W*$)")


def totals_evened(low: str) -> str:
    """The text with what the row comes to told as a count behind a colon.

    >>> totals_evened("(sc2tog) around until 8 sts remain. fasten off").split()
    ['(sc2tog)', 'around', ':', '8', 'sts', '.', 'fasten', 'off']
    """
    low = _SUM.sub(_added_up, low) if "+" in low else low
    low = _WITH_BETWEEN.sub(lambda found: f"({found['said']})".ljust(len(found[0])), low) if "between" in low else low
    low = _SPACE_ONE.sub(lambda found: f"{found['lead']} {found['noun']}s".ljust(len(found[0])), low)
    low = _AND_SPACE.sub(_with_space, low)
    low = _SIDE_HAS.sub(lambda found: " " * len(found[0]), low) if "side" in low else low
    low = _PARTED.sub(_as_parted, _UNDERARM.sub(lambda found: " " * len(found[0]), low))
    low = _HALVES.sub(lambda found: found["n"] + " " * len(found["said"]), low) if "half" in low else low
    low = _COUNT_SAID.sub(lambda m: f"{m['lead']}({m['n']}{m['noun'] or ''})".ljust(len(m[0])), low)
    if " every" in low or " each" in low or " all " in low:
        low = _COUNT_ALWAYS.sub(lambda m: m["n"] + " " * len(m["behind"]) if m["same"] is None or m["n"].startswith(f"{m['same']} ") else m[0], low)
    low = _BACK_TO.sub(lambda m: f"({m['n']}{m['noun'] or ''})".ljust(len(m[0])), low) if "back " in low else low
    low = _LEFT_WITH.sub(lambda m: f" ({m['n']}{m['noun'] or ''})".ljust(len(m[0])), low) if " with" in low or " to " in low else low
    low = _ENDS_ON.sub(lambda m: m["n"] + " " * len(m["said"]), low)
    low = _SIDE_WITH.sub(lambda m: m["n"] + " " * len(m["said"]), low) if " side" in low else low
    low = _STS_AROUND.sub(lambda m: f"({m['n']} {m['noun']})".ljust(len(m[0])), low)
    low = _GROUPS_THEN_END.sub(lambda m: f"({m['n']} {m['noun']})".ljust(len(m[0])), low)
    low = _EACH_ROUND.sub(lambda m: m["n"] + " " * len(m["each"]), low) if " r" in low else low
    low = _IN_OTHERS.sub(lambda m: m["n"] + " " * len(m["or"]), low)
    low = _AND_THINGS.sub(lambda m: m["n"] + " " * len(m["things"]), low)
    low = _BY_YARN.sub(_in_all_yarns, low)
    low = _TIMES_CHAINS.sub(lambda found: f"{found['n']} ch-{found['a'] or found['b']}".ljust(len(found[0])), low)
    low = _HAVE_SO_MANY.sub(_so_many_there, low) if "have" in low or "see" in low else low
    low = _PER_SIDE.sub(lambda found: found["lead"].ljust(len(found[0])), low) if "side" in low else low
    low = _COUNT_BEFORE.sub(lambda found: f"({found['n']} {found['st']})", low)
    low = _COUNT_THEN.sub(lambda found: f"{found['lead']} ({found['n']})", low)
    low = _SO_MANY.sub(_so_often, _BESIDE.sub(lambda found: " " * len(found[0]), low))
    low = _TOTAL_OF.sub(lambda found: f" ({found['count']})".ljust(len(found[0])), low)
    low = _IN_BRACKETS.sub(lambda found: " " * len(found["lead"]), _FLOWER.sub(_petals, low))
    found = _UNTIL.search(low)
    if found is None or not _comes_to(low, found):
        return low
    along = "" if _TO_THE_END.search(low[: found.start()]) else " ar"
    told = f"{along} : {found['n']}{found['noun'] or ''}"
    return low[: found.start()] + told.ljust(len(found[0])) + low[found.end() :] if len(told) <= len(found[0]) else low


def _with_space(found: re.Match[str]) -> str:
    told = next((said for said in (f"({found['count']}, 1 {found['sp']})", f"({found['count']}, {found['sp']})") if len(said) <= len(found[0])), found[0])
    return told.ljust(len(found[0]))


def _as_parted(found: re.Match[str]) -> str:
    """A count without its parts where these come to it, or where they are told by the pieces that they belong to."""
    parts = found["said"]
    told = re.search(_PIECE, parts) is not None or sum(map(int, re.findall(r"\d+", parts))) == int(found["n"])
    opened = parts.count("(") - parts.count(")")
    if not told or opened not in (0, -1):
        return found[0]
    return (found["count"] + (")" if opened else "")).ljust(len(found[0]))


def _added_up(found: re.Match[str]) -> str:
    """A sum taken away where it comes to the count behind it."""
    adds_up = sum(map(int, re.findall(r"\d+", found["sum"]))) == int(found["n"])
    return " " * len(found["sum"]) if adds_up else found[0]


def _in_all_yarns(found: re.Match[str]) -> str:
    """ "(2 A, 1 B, 1 A)" as what these come to, in brackets of the same length."""
    total = sum(map(int, re.findall(r"\d+", found["parts"])))
    return f"({total}".ljust(len(found[0]) - 1) + ")"


def _so_many_there(found: re.Match[str]) -> str:
    if not (found["and"] or found["like"] or found["of"]):
        return found[0]
    lead = ". ".ljust(len(found["and"])) if found["and"] else ""
    return f"{lead}{found['you']}{found['n']} {found['noun']}".ljust(len(found[0]))


def _so_often(found: re.Match[str]) -> str:
    """So many points told as so many times of what a bracket or two stars close, or of what one star opened."""
    before = found.string[: found.start()].rstrip(" ,;.")
    total = bool(found["total"] or found["all"] or found["noun"] not in (None, "times"))
    number = lexicon.number(found["n"]) or 0
    if not total or number < TWO or not (found["rep"] or found["noun"] or found["make"]):
        return found[0]
    stars, more = before.count("*"), f"{found['lead']}rep * {number - 1} more times"
    if _FROM_STAR.search(before):
        told = f"{found['lead']}{number - 1} more times"
    elif before.endswith(("*", ")", "]")) and stars % TWO == 0:
        told = f"{found['lead']}{number} times"
    elif stars == 1 and found["rep"] and len(more) <= len(found[0]):
        told = more
    else:
        return found[0]
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _petals(found: re.Match[str]) -> str:
    if found["lead2"]:
        return found["lead2"] + " " * len(found["b"])
    return f"{found['lead']}{found['n']} petals".ljust(len(found[0]))


def _comes_to(low: str, found: re.Match[str]) -> bool:
    """Whether "until 8 sts" tells what a round comes to: what is worked so long decreases, or increases and nothing is said to be left."""
    again = _again_and_again(low[: found.start()])
    left = bool(_LEFT.search(found["how"] or ""))
    if found["noun"] is None and not left:
        return False
    if _TURNS.search(low):
        return False
    if _DECREASES.search(again):
        return True
    return not left and bool(_INCREASES.search(again))


def _again_and_again(before: str) -> str:
    """What comes again before such words: what a star or a bracket holds, else the last clause."""
    said = _TO_THE_END.sub("", before).rstrip(" ,;")
    if said.endswith((")", "]")) and (opened := max(said.rfind("("), said.rfind("["))) >= 0:
        return said[opened:]
    if "*" in said:
        return said[said.index("*") :]
    return re.split(r"[,.;:]", said)[-1]
