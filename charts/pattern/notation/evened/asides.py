"""What is said of work beside it: "petal of sc, hdc, 3 dc, hdc, sc", "2 dc in next st - increase", "(2-dc group)", and the
second of two ways to make a foundation.

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_PLAIN = r"(?:s ?c|h ?d ?c|h ?tr|d ?c|d ?tr|tr|sl st|ss)"
_PART = rf"(?:(?:\d{{1,2}}|one|two|three|four|five|six|seven) ?)?{_PLAIN}"
#: Three things or more in a row: what a petal is made of.
_LIST = rf"{_PART}(?:(?:, ?| )(?:and )?{_PART}){{2,}}"
#: How many are made is no part of the name.
_NOT_MANY = r"(?<!\d )(?<!two )(?<!three )(?<!four )(?<!five )(?<!six )(?<!seven )(?<!eight )"
_SHAPE = r"(?:petals?|scallops?|leaf|leaves|points?)"
#: "Petal of 1 sc, 3 dc, 1 sc", "petals of ...", "a petal consisting of ...": the list itself is worked.
_SHAPE_OF = when_used(rf"{_NOT_MANY}(?P<name>\b(?:(?:an?|one|1|the) )?{_SHAPE} (?:(?:made|made up|consisting|composed) )?(?:of|with):? )(?={_LIST})")
#: "Work a petal in each sp as follows: sc, ...", "1 petal in each sp: (sc, ...)": so many of the list that follows.
_SHAPE_IN = when_used(
    rf"{_NOT_MANY}(?P<name>\b(?:(?:an?|one|1) )?{_SHAPE})(?P<where> (?:in|into|over|around) (?:the )?(?:each|every|next|all)\b[^.;:()]{{2,40}}?(?:,? (?:as follows|like this|thus|worked as|work(?:ing)?))?(?::|(?= \()) ?[(\[]?)(?={_LIST})"
)
_PLACE = r"(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr|sp|space|loop|lp|ch)"
#: "2 dc in next st - increase", "sc next 2 sts tog = dec": what that is, behind it.
_BEHIND = r"(?: (?:made|done|worked))?(?=\s*(?:[,;.)*\]]|$))"
_SHAPING_SAID = when_used(
    rf"(?P<inc>\b(?:[2-5]|two|three) {_PLAIN} (?:in|into) (?:the )?(?:(?:next|same|each|first|last|this|that|following) )+{_PLACE})(?P<said> ?[-=:] ?(?:(?:an?|one|1) )?(?:increase|increasing|inc){_BEHIND})"
    rf"|(?P<dec>\b{_PLAIN}[ -]?[2-5][ -]?tog\b[^,;.()*-]{{0,24}}|\b(?:next )?2 {_PLACE} tog(?:ether)?)(?P<named> ?[-=:] ?(?:(?:an?|one|1) )?(?:decrease|decreasing|dec){_BEHIND})"
)
#: "2 dc in next dc (2-dc group)": what was just made.
_GROUP_SAID = when_used(
    rf"(?P<work>\b(?P<n>[2-9]) ?(?P<k>{_PLAIN}) (?:in|into) [^,;.()\[\]]{{3,30}}[a-z]) ?\((?:(?:an?|one|1) )?(?P=n)[- ]?(?P=k)[- ](?:group|grp|shell|fan|cluster|set)s?(?: (?:made|formed|done|completed))?\)(?=\s*[,;.)*\]])"
)
#: "24 sc, no change": a round that stays as it is.
_NO_CHANGE = when_used(rf"(?P<n>\b\d{{1,3}} ?{_PLAIN})(?P<said>,? ?[(\[]?(?:no change|no changes|unchanged|without change)[)\]]?)(?=\W*$)")
#: "(Ch 3, 4 dc in sp) - first popcorn", "(5 dc in next sp) - popcorn made": what the stitches in the bracket are made into.
_POPCORN_SAID = when_used(
    rf"\((?P<lead>ch ?[2-5],? (?:and )?)?(?:work )?(?P<n>\d) ?(?P<k>{_PLAIN}) (?P<in>in(?:to)? (?:the )?)(?P<which>(?:same |next |first |1st |this )?)(?P<st>(?:ch-?\d? ?|\d ?-?ch )?{_PLACE})\)"
    r" ?[-=:] ?(?:(?:the|an?|one|1) )?(?P<first>(?:first|1st|beg(?:inning)?|starting|start) )?(?P<name>popcorn(?: st(?:itch)?)?|pc)(?: made| done| completed)?(?=\s*[,;.)*\]])"
)
#: "1 tr in each of the 3 tr in first group": where a round begins, those are the next ones.
_OF_FIRST = when_used(rf"(?P<of>^[^*\[]{{0,40}}?\beach of (?:the )?(?:next |first )?[2-9] (?:{_PLAIN}|trebles?|double crochets?|single crochets?|sts?|stitches))(?P<group> (?:in|of) (?:the )?(?:first|1st) (?:group|shell|fan|block|set)(?: below)?)(?=\s*[,;.(*])")
#: "Join in top st of ch 4": the top of the chain that a row begins with.
_TOP_STITCH = when_used(r"\btop (?P<st>st|stitch) (?P<of>of (?:the )?(?:(?:first|1st|beg|beginning|starting|turning) )?(?:ch ?-?\d|\d ?-?ch|t-?ch|turning ch(?:ain)?|chain)\b)(?! ?(?:sp|space|lp|loop))")
#: "Skip the chain below", "sk chs": all of the loop's chains, of which nobody says how many.
_SKIPS_ALL = when_used(r"\b(?P<skip>sk|skip|miss|omit|pass)(?P<chs> (?:over )?(?:(?:the|those|all) (?:chain|ch|chs|chains)|chs|chains)(?: below| between)?)(?=\s*[,;.)])")
#: "Ch 3, 1 dc at base, ...", "dc at base of ch": where the round's beginning chain stands.
_AT_BASE = when_used(r"(?<!st )(?<!stitch )(?<!sp )(?<!same )(?<!place )\bat (?:the )?(?:base|bottom)(?P<of> of (?:the |that |same |beg |beginning |starting |turning )*(?:ch|chain)[- ]?\d?)?(?=\s*[,;.(])")
#: "..., from * repeat to the end of the row".
_FROM_FIRST = when_used(r"(?<=[,;.)] )from (?P<mark>\*+) (?P<rep>repeat|rep)\b")
#: "Repeat rds. 4 and 5": a stop behind an abbreviation, before the rows' numbers.
_ROWS_STOPPED = when_used(r"\b(?P<row>rds?|rnds?|rows?|rounds?)\.(?= ?\d{1,3} ?(?:$|[,;.)&-]|and\b|to\b|through\b|thru\b|once\b|twice\b|again\b))")
#: "Ch 2, 12 hdc in center": so many go into the ring.
_IN_CENTER = when_used(rf"^(?P<lead>\W*(?:ch ?\d[^,;.*]{{0,30}}[,;.] ?)?(?:work |make )?(?:[5-9]|\d\d) {_PLAIN} in(?:to)? )(?P<center>(?:the )?cent(?:er|re)(?: of (?:the |your )?(?:ring|circle|ch|chain))?)(?=\s*(?:[,;.(\[]|$))")
#: "Dc 2, ch 3, dc 3 in same sp": how many are told behind their name, and all go there.
_TOLD_BEHIND = when_used(rf"\b(?P<k>{_PLAIN}) (?P<a>\d)(?P<ch>, ?(?:ch ?\d|\d ?ch), ?)(?P=k) (?P<b>\d)(?P<there> in(?:to)? (?:the |same |next |each |that |this |corner )*(?:ch[- ]?\d? ?)?(?:sp|space|loop|lp|corner|ring|circle)\b)")
#: "*Dc 3, ch 3* 3 times" in a ring.
_RING_BEHIND = when_used(rf"\b(?P<k>{_PLAIN}) (?P<n>\d{{1,2}})(?= ?(?:[,;*.)]| in(?:to)? (?:the )?(?:ring|circle)\b))")
_INTO_RING = when_used(rf"\b{_PLAIN} \d{{1,2}} in(?:to)? (?:the )?(?:ring|circle)\b")
#: "Ch 2 we don't count as stitch", "ch 1 don't count": what a beginning chain is not, said in passing.
_NOT_COUNTED = when_used(
    r"(?P<ch>\b(?:ch ?\d|\d ?ch)),? (?P<said>(?:(?:we|you|i|which|that|it|this) )?(?:do not|don't|dont|does not|doesn't|doesnt|not) count(?:ed|s)?(?: (?:it|this|them))?(?P<as> as (?:an? )?(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr))?)(?=\s*[,;.])"
)
#: "Make front post into next dc": a post stitch like the one it goes round.
_POST_INTO = when_used(rf"(?P<make>\bmake )?\b(?P<side>front|back) post (?:stitch )?(?:in|into|around|on) (?:the )?(?:next )?(?P<k>{_PLAIN})(?P<st> st(?:itch)?)?(?=\s*(?:[,;.*)]|$))")
#: "Sl st to join into front post": the first stitch, whatever it is.
_JOINS_POST = when_used(r"(?P<join>\bjoin(?:ed|ing)?)(?P<where> (?:in|into|to) (?:the )?(?:(?:first|1st|next) )?(?:front|back) post(?: st(?:itch)?)?)(?=\s*(?:[,;.(]|$))")
#: "Repeat and follow Round 6 & Round 7".
_FOLLOW = when_used(r"\b(?P<rep>repeat|rep)(?P<and> (?:and |/ ?)?(?:follow|do))(?= (?:the )?(?:rows?|rnds?|rounds?)\b)")
_FOUNDATION_STITCH = r"(?:f ?-?(?:sc|hdc|dc)|(?:sc|hdc|dc) foundation|foundation (?:sc|hdc|dc|single crochets?|double crochets?|half double crochets?)(?: stitch(?:es)?)?)"
#: "Fsc 20, or ch 21 and sc in 2nd ch ...", "ch 21, sc in 2nd ch and across, or fsc 20": chains, and stitches without them.
_OR_CHAIN = when_used(rf"^(?P<other>\W*(?:(?:make|work) )?(?:\d{{1,3}} )?{_FOUNDATION_STITCH}(?: \d{{1,3}})?,? or )(?=(?:make |work )?(?:ch(?:ain)?s? ?\d|\d{{1,3}} ?ch))")
_OR_FOUNDATION = when_used(rf"(?P<other>,? \(?or (?:you can |just )?(?:make |work |do |use )?(?:\d{{1,3}} )?{_FOUNDATION_STITCH}(?: \d{{1,3}})?\)?)(?=\s*(?:[.;(\[]|$))")

_RING = r"(?:(?:magic|adjustable|sliding) (?:ring|circle|loop)|mr|mc)"
_CHAIN_RING = r"(?:a |with |by |use |make |with a )*(?:ch(?:ain)? ?-?\d{1,2}|\d{1,2} ?ch(?:ains?)?)\b[^,.;()]{0,12}?(?:,? (?:and )?(?:close|closed|join|joined|joining|connect|connected|sl st|ss|slip stitch)\b[^.;()]{0,48}?)"
#: "Make a magic ring or a ch 5 closed with a sl st.": two ways to begin in a ring.
_OR_CHAIN_RING = when_used(rf"^(?:\W*(?:[^.;*()\d]{{2,40}}\. ?)?(?:(?:start|begin) (?:with|by) )?(?:(?:make|making|work|form|either|both|with|using) )*(?:an? )?{_RING})(?P<other>,? or {_CHAIN_RING})(?=\s*(?:[.;]|$|, ?(?:ch|work|make|\d)))")

_MANY = rf"(?:\d{{1,2}}|{lexicon.NUMBER_WORDS})"
_ANY_ST = r"(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr)"
_SUBSTANCE = r"(?:rope|cord|cording|clothesline|clothes line|twine|piping|jute|sisal|filler|filler cord|core|tubing|wire)"
#: "2 sc over the rope in every sc": what the stitches enclose, told in the clause that says where they go.
_OVER = rf"(?:(?:working|going|crocheting) )?(?:over|around|round|enclosing) (?:the |your |a )?{_SUBSTANCE}"
#: "10 seemed to work out well.", "12 looks best": a number of what is talked about.
_SEEMED = when_used(rf"(?:(?<=[.!?] )|^\s*){_MANY} (?:seem(?:ed|s)|look(?:ed|s)|work(?:ed|s) (?:out |best|well|fine)|felt|feels|was|is) [^.!?*(]{{0,40}}[.!?]")
#: "The increasing is begun in this round.", "shaping begins here".
_SHAPING_BEGINS = when_used(
    r"\b(?:the )?(?:increas|decreas|shap)(?:ing|es?)s? (?:(?:is|are) )?(?:begun|started|starts?|begins?|made|done|worked)(?: (?:in|on|with|from))?(?: (?:this|the|here)(?: same)?(?: (?:rnd|round|row))?)?(?=\s*(?:[.;)]|$))"
)
#: "4 dc in 1st loop (1 block), *ch 2, ...": what was just made, where work follows.
_ONE_MADE = when_used(r"\((?:1|one) (?:[a-z0-9]+[- ])?(?:block|shell|group|grp|cluster|cl|loop|lp|space|sp|petal|point|fan|picot|v|v-st|scallop|arch|popcorn|puff)\)(?=[\s.,;]*(?!fasten|turn\b|cut\b|end off)(?:[*(\[]|[a-z0-9]))")
#: "Slip knot, ch 2, 6 sc in first ch": how every chain begins.
_SLIP_KNOT = when_used(r"^\W*(?P<said>(?:(?:make|start with|begin with|beginning with|with) )?(?:a )?(?:slip|sl)[ -]?knot(?: on (?:the |your )?hook)?(?:,| and| then|\.|;)+) (?=(?:then )?(?:ch(?:ain)?\b|\d{1,3} ?ch))")
#: "Join, in rounds again.", "sc in each st, not in the joining sl st": how work goes on, and where nothing goes.
_BY_THE_WAY = when_used(
    r"(?<=[a-z0-9)])(?P<said> ?[,;] (?:and |but )?(?:(?:now |then )?(?:(?:once more|back|again|working|work) )*in (?:the )?(?:rounds?|rnds?|rows) (?:again|now|once more|from (?:here|now)(?: on)?)"
    r"|(?:not|never|none) (?:in|into|on) (?:the |that |any )?(?:joining |join |last |previous )?(?:sl ?-?sts?|slip ?-?st(?:itch)?(?:es)?|ss)))(?=\s*(?:[.,;)]|$))"
)
#: "With blue yarn and 4.50mm hook ch 16", "size H/5.00mm hook": the hook beside the yarn.
_AND_HOOK = when_used(r"(?<=[a-z])(?P<said>,? (?:and|with|&|on) (?:(?:an?|the|your|size) )*(?:[a-z]/)?\d(?:[.,]\d{1,2})? ?mm (?:crochet )?hook,?)(?= ?(?:ch(?:ain)?\b|ch\d|make\b|work\b|\d{1,3} ?ch))")
_ROPE_FIRST = when_used(rf"(?P<said>\b{_OVER}),?(?= (?:in(?:to)? )?(?:(?:the )?(?:each|every|all|next|same|first|last)\b))")
_ROPE_LAST = when_used(rf"(?:\b(?:in(?:to)? )?(?:the )?(?:each|every|all|next|same|first|last|this) (?:\d{{1,2}} )?{_ANY_ST}(?: around)?)(?P<said>,? {_OVER})(?=\s*(?:[,;.(\[)*]|$))")
#: "6 lps behind each petal. ...": what hangs there, before the row's work.
_LOOPS_BEHIND = when_used(r"^\W*\d{1,2} ?(?:lps?|loops?)(?: (?:are|lie|hang|left))? (?:behind|at (?:the )?back of|in front of) (?:each|every|the) petals?(?=[.;:])")
#: "<-- your first twist!": a remark that points at the row.
_POINTED_AT = when_used(r"<\s?[-\u2013\u2014]{1,3}[^<>*()]{2,70}$")
#: "Leave the other 6 alone thats the top of your foot": which part of the thing it is.
_THAT_PART = when_used(
    r"(?P<said>,? (?:that'?s|that is|this is|which is|those are|these are) (?:going to be )?(?:for )?(?:the|your) (?:[a-z]+ ){0,3}?(?:foot|heel|toe|neck|thumb|thumbhole|armhole|sleeve|back|front|top|bottom|opening|body|brim|handle|strap)(?: of (?:the|your|his|her) [a-z]+)?)(?=\s*(?:[.;,!)]|$))"
)
_STEP = r"(?:sts?|stitch|sps?|space|loops?|lps?|shell|group|petal|sc|hdc|dc|tr)"
#: "Moving along a space each time": how the hook gets on.
_MOVING_ON = when_used(
    rf"^(?!.*\bin(?:to)? (?:this|same|that)\b).*?(?P<said>[,;] ?(?:always )?(?:mov|go|work|shift|stepp|travel|advanc)ing (?:along|on|over|forward|ahead|up)?(?: by)? ?(?:an?|one|1) {_STEP}(?: further| farther| along| over| on)*(?: (?:each|every) (?:time|repeat))?)(?=\s*(?:[.;,)]|$))"
)
#: "This time begin with the inc: (inc, sc 3) around", "the increase comes first now: ...": what the repeat shows.
_FIRST_NOW = when_used(
    r"(?P<said>(?:(?<=[.,;] )|^\W*)(?:but |and )?(?:(?:this time|now|here|this rnd|this round|on this rnd|in this rnd),? )?(?:(?:you |we )?(?:start|begin|starting|beginning) (?:this (?:one|rnd|round|time) )?(?:with|by) (?:the|an) (?:inc(?:rease|reasing)?|dec(?:rease|reasing)?)"
    r"|(?:the )?(?:inc(?:rease)?s?|dec(?:rease)?s?) (?:comes?|goes?|is|are) (?:at the )?(?:first|front|start|beginning))(?: (?:this time|now|here|this rnd|this round))? ?[:;,-])(?=\s*(?:[*(\[]|inc\b|dec\b|\d? ?sc2tog))"
)
_FOR_WHAT = r"(?:back|front|neck|armhole|shoulder|sleeve|thumb|band|collar|flap|heel|instep|toe|gusset|strap|crown|brim|side|left|right|second|first|other|later|next|half|part|sides|edge|underarm|yoke|handle|opening|border|ribbon|of|the|a|your|and|each|one|to)"
#: "The 11 dc left are for back of neck", "these 30 sc form the band": what stitches will be.
_WHAT_FOR = when_used(
    rf"(?<=[.!] )(?P<said>(?:the|these|those) (?:other |remaining |last |rem )?{_MANY} (?:(?:{_ANY_ST}|{_PLAIN}) )?(?:(?:are|will be|is) (?:all |kept |saved )?(?:for )?|(?:will )?(?:form|become|make) )(?:{_FOR_WHAT} )*{_FOR_WHAT})(?=\s*(?:[.!]|$))"
)
#: "The 11 dc left are for the back of the neck": those stay unworked.
_LEFT_FOR = when_used(
    rf"(?<=[.!] )(?:the|these|those) (?:other |last )?{_MANY} (?:(?:{_ANY_ST}|{_PLAIN}) )?(?:left|remaining|unworked|left over|that (?:are left|remain))(?P<said> (?:are|will be|is) (?:all |kept |saved )?(?:for )?(?:{_FOR_WHAT} )*{_FOR_WHAT})(?=\s*(?:[.!]|$))"
)
#: "..., since there is only a half shell there": why.
_BECAUSE = when_used(r"(?P<said>,? (?:since|because|'cause|cuz|bc) (?:there|that|it|this|you|they|we|i)(?:'s|'re|'ve| )[^.;:,*()\[\]]{2,80})(?=[.;:,*()]|$)")
#: "Ch 1, turn, this is the skinny stripe: ...": what the row is.
_THIS_IS = when_used(
    r"(?P<said>(?:(?<=[.,;] )|^\W*)(?:and |now )?this (?:is|will be|one is|one's) (?:going to be )?(?:the|your|a|an|our|my) (?:[a-z'-]+ ){0,3}(?:stripe|row|rnd|round|one|part|bit|band|ridge|border|base|bottom|edge|edging|brim|cuff|heel|toe|crown|wall|side|front|back|lining|trim) ?[:;,-])(?= ?[a-z0-9*(\[])"
)
#: "91 sc over hem to other corner": how far so many go.
_TO_OTHER = when_used(rf"\b\d{{1,3}} {_ANY_ST}\b(?! (?:in|into|from) (?:each|every|all|next))(?:(?!\b(?:each|every|all)\b)[^.;:*()\[\]]){{0,40}}?(?P<said>,? to (?:the )?(?:other|opposite|far|next) (?:corner|end|side|edge))(?=\s*(?:[.,;]|$))")
#: "Dc in each dc between": between the corners.
_BETWEEN_ALL = when_used(rf"\bin(?:to)? (?:each|every|all) (?:the )?{_ANY_ST}(?P<said> (?:in )?between)(?=\s*(?:[.,;]|$))")
#: "Last V done you'll have 2 left": what the row below has left then.
_LAST_DONE = when_used(
    rf"(?P<said>(?:(?<=[*)])|(?<=[a-z0-9]))[,;.]? ?(?:(?:and|after|with|when|once) )*(?:the |your )?last (?:[a-z0-9-]+ ){{1,2}}(?:is )?(?:done|made|worked|finished|complete[d]?),? (?:you(?:'ll| will)?(?: still)? have|there(?:'ll| will) be|that leaves|leaving) {_MANY} (?:{_ANY_ST} )?(?:left|remaining|over))(?=[,;.:])"
)
#: "..., the first dc being ch 3, join": what every round begins with.
_FIRST_IS_CHAIN = when_used(rf"(?P<said>[,;] ?(?:with )?(?:the )?(?:first|1st) (?:{_PLAIN}|st) (?:of all |always )?(?:being|is|will be|to be) (?:always )?(?:the |a )?(?:ch ?-?[2-5]|beg(?:inning)? ch(?:ain)?)(?: as before)?|[,;] ?beginning with (?:the )?ch ?-?[2-5] (?:in place of|instead of|for) (?:the )?(?:first|1st) (?:{_PLAIN}|st)(?: as before)?)(?=\s*(?:[.,;]|$))")
#: "No more increases, yay! Ch 2, *dc in next 4 sts, ...": what the row is not, before its work.
_NO_MORE = when_used(
    r"^\W*(?P<said>no (?:more|further) (?:increas|decreas)(?:es?|ing)(?: (?:now|here|needed|from here(?: on)?))?\s*(?:[.;!,:-]|$)(?: ?(?:yay|hooray|yippee|phew)\s*[.!,]*)?)(?=.*\b(?:sc|hdc|dc|htr|tr|fpdc|bpdc)\b)"
)
#: "Hdc in all sts, also on top of the puffs (not in the closing ch)": they are some of them.
_ALSO_ON = when_used(
    rf"\bin(?:to)? (?:the )?(?:each|every|all)(?: of)?(?: the)? {_ANY_ST}(?P<said>,? (?:also|even|including) (?:in|on|into) (?:the |top of |tops of |each |every )*(?:puffs?|bobbles?|popcorns?|clusters?)(?: sts?| stitch(?:es)?)?)(?=\s*(?:[.,;(]|$))"
)
#: "... (not in the closing ch)" of a puff, which is no place of its own.
_NOT_IN = when_used(r"(?P<said>[,(]? ?(?:but |and )?not (?:in|into|on) (?:the |their |its )?closing (?:ch(?:ain)?(?:[- ]?\d)?|chains)(?:[!.]*\))?)(?=\s*(?:[.,;!)]|$))")
#: "... 2 dc in last sc - 1 st increased each end": what the row has done.
_DONE_SO = when_used(
    r"(?<=[a-z0-9)])(?P<said>\s*[,;.:\u2013\u2014-]+\s?(?:\(?)(?:\d{1,2}|one|two) (?:sts?|stitch(?:es)?|sc|hdc|dc|tr) (?:increased|decreased|inc'd|dec'd|gained|lost)(?: (?:at|on))?(?: (?:each|both|either) (?:ends?|sides?|edges?)|(?: in)? all|altogether)?\)?)(?=\W*$|[.;])"
)
#: "Work each post st as it appears: BPdc in the BPdc, FPdc in the FPdc": told by what follows.
_AS_APPEARS = when_used(
    r"(?P<said>\bwork(?:ing)? (?:each |all |every |the )+(?:post )?(?:sts?|stitch(?:es)?) as (?:it|they) (?:appears?|presents? (?:itself|themselves)|looks?|comes?)\s*[:;,-])(?= ?(?:fp|bp|front|back))"
)
#: "Eyelets again (like Row 4)": what a row is called, which its bracket tells.
_CALLED_SO = when_used(
    r"^\W*(?P<said>(?:(?!\b(?:sc|h?dc|h?tr|dtr|chs?|chain|inc|dec|in|into|turn|sk|skip|join|with|using|rep|repeat|sl|ss|back|front|loops?|lps?|blo|flo|posts?|each|every|ends?|sides?|yarn|colou?r|reverse|but|not|only)\b)[a-z' -]){3,40}?)"
    r"(?= ?\((?:same as|as|repeat|rep|work as|like) (?:for )?(?:row|rnd|round|r) ?\d{1,3}[^()]{0,40}\)\W*$)"
)
#: "(6 on each side)", "(9 each side)".
_PER_SIDE_APART = when_used(rf"(?P<said>\((?:there are |so |now |you have )?{_MANY}(?: ?(?:sts?|stitches|sc|h?dc|h?tr|groups|clusters|sps|spaces))?(?: (?:now|in total))? (?:(?:on|along|to|for|in|at) )?(?:each|every|per|either) side(?: of (?:the |your )?[a-z]{{2,8}})?\))(?=\W*$)")
#: "(12 dc, ch 3 is always a dc)": how the count was taken, within it.
_CHAIN_IS = when_used(r"(?P<count>\(\d{1,3} ?[a-z]{2,8})(?P<said>[,;:]? (?:and |as )?(?:the |your )?(?:first |beg(?:inning)? |turning )?ch(?:ain)?[- ]?[2-5] (?:is|are|counts?|being|counted|counting|included|incl)\b[^()]{0,30})(?=\))")
#: "2 sc in last ch (this is the ch that holds the first sc)": which one that is.
_HOLDS_FIRST = when_used(
    rf"(?P<said>(?: ?\(|[,:;] ?| ?[-\u2013\u2014] ?)(?:this|that|it|which)(?:'s| is| will be| should be) the (?:same |very )?(?:ch(?:ain)?|sts?|stitch|place|one) (?:(?:that|which|where|with|as) )?(?:(?:already|you(?:'ve)?|we|it) )*(?:(?:holds?|has|had|contains|made|worked|put|placed|started|began|got) )*(?:in )?(?:the |your )?(?:first|1st) (?:{_PLAIN}|st(?:itch)?)(?: (?:in it|in|into|went in|is in|of the (?:row|rnd|round)))?\)?)(?=\s*(?:[.,;)]|$))"
)
#: What is said beside the work, each with the words that are set apart as `said`, or all of it.
_SET_APART = (_SEEMED, _SHAPING_BEGINS, _ONE_MADE, _SLIP_KNOT, _BY_THE_WAY, _AND_HOOK, _ROPE_FIRST, _ROPE_LAST, _LOOPS_BEHIND, _POINTED_AT, _THAT_PART, _NO_MORE, _MOVING_ON, _FIRST_NOW, _WHAT_FOR, _LEFT_FOR, _BECAUSE, _THIS_IS, _TO_OTHER, _BETWEEN_ALL, _LAST_DONE, _FIRST_IS_CHAIN, _ALSO_ON, _NOT_IN, _DONE_SO, _AS_APPEARS, _CALLED_SO, _PER_SIDE_APART, _CHAIN_IS, _HOLDS_FIRST)


def set_apart(low: str) -> tuple[str, list[tuple[int, int]]]:
    """The text without what is said beside the work and changes none of it, and where that stands, which is to be told.

    >>> low, said = set_apart("2 sc over the rope in every sc. the increasing is begun in this round.")
    >>> low.split(), said
    (['2', 'sc', 'in', 'every', 'sc.', '.'], [(5, 18), (32, 69)])
    """
    spans: list[tuple[int, int]] = []
    for pattern in _SET_APART:
        found = [m.span("said") if "said" in m.groupdict() else m.span() for m in pattern.finditer(low)]
        for start, end in found:
            low = low[:start] + " " * (end - start) + low[end:]
        spans += found
    return low, sorted(spans)


def asides_evened(low: str) -> str:
    """The text without what only names or repeats the work beside it.

    >>> asides_evened("in each sp work petal of 1 sc, 3 dc, 1 sc; join").split("work")[1].split()
    ['1', 'sc,', '3', 'dc,', '1', 'sc;', 'join']
    >>> asides_evened("(2 dc in next st - increase) around"), asides_evened("[2 dc in next dc (2dc group)] x 11")
    ('(2 dc in next st           ) around', '[2 dc in next dc            ] x 11')
    """
    low = _SHAPE_OF.sub(lambda m: " " * len(m[0]), low)
    low = _SHAPE_IN.sub(lambda m: " " * len(m["name"]) + m["where"], low)
    low = _SHAPING_SAID.sub(lambda m: (m["inc"] or m["dec"]).ljust(len(m[0])), low)
    low = _GROUP_SAID.sub(lambda m: m["work"].ljust(len(m[0])), low)
    low = _NO_CHANGE.sub(lambda m: m["n"] + " " * len(m["said"]), low) if "chang" in low else low
    low = _POPCORN_SAID.sub(_popcorn, low) if "popcorn" in low or "pc" in low else low
    low = _OF_FIRST.sub(lambda m: m["of"] + " " * len(m["group"]), low) if "each of" in low else low
    low = _TOP_STITCH.sub(lambda m: f"top {m['of']}".ljust(len(m[0])), low) if "top st" in low else low
    low = _SKIPS_ALL.sub(lambda m: f"{m['skip']} sp".ljust(len(m[0])), low) if "hook" not in low else low
    low = _AT_BASE.sub(lambda m: ("in same st" if m["of"] else "in same").ljust(len(m[0])), low) if "at " in low else low
    low = _FROM_FIRST.sub(lambda m: f"{m['rep']} from {m['mark']}", low) if "from *" in low else low
    low = _ROWS_STOPPED.sub(lambda m: f"{m['row']} ", low) if "." in low else low
    low = _IN_CENTER.sub(lambda m: m["lead"] + "ring".ljust(len(m["center"])), low) if "cent" in low else low
    low = _TOLD_BEHIND.sub(lambda m: f"{m['a']} {m['k']}{m['ch']}{m['b']} {m['k']}{m['there']}", low)
    low = _RING_BEHIND.sub(r"\g<n> \g<k>", low) if _INTO_RING.search(low) else low
    low = _NOT_COUNTED.sub(_not_counted, low) if "count" in low else low
    low = _POST_INTO.sub(_post_stitch, low) if " post " in low else low
    low = _JOINS_POST.sub(lambda m: m["join"] + " " * len(m["where"]), low) if " post" in low else low
    low = _FOLLOW.sub(lambda m: m["rep"] + " " * len(m["and"]), low) if "rep" in low else low
    return low


def _popcorn(found: re.Match[str]) -> str:
    """The stitch that a bracket is said to make, in the place that its stitches go into."""
    name = "pc" if found["name"] == "pc" else "popcorn"
    if found["lead"]:
        told = f"beg {name} in same {found['st']}"
    else:
        told = f"{name} {found['in']}{found['which']}{found['st']}" if not found["first"] else found[0]
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def one_foundation(low: str) -> tuple[str, str]:
    """The text without the stitches that may be worked in place of a foundation chain; and these, "" where none are told.

    >>> low, other = one_foundation("fsc 20 or ch 21 and sc in 2nd ch from hook")
    >>> low.strip(), other
    ('ch 21 and sc in 2nd ch from hook', 'fsc 20 or')
    """
    found = (_OR_CHAIN.search(low) or _OR_FOUNDATION.search(low) or _OR_CHAIN_RING.search(low)) if "or " in low else None
    if found is None:
        return low, ""
    start, end = found.span("other")
    return low[:start] + " " * (end - start) + low[end:], found["other"].strip(" ,")


def _not_counted(found: re.Match[str]) -> str:
    said = " (does not count as st)" if found["as"] or found["ch"].strip("ch ") != "1" else ""
    told = f"{found['ch']}{said}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _post_stitch(found: re.Match[str]) -> str:
    told = f"{found['side'][0]}p{found['k'].replace(' ', '')} around next {found['k']}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]
