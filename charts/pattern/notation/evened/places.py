"""Where work goes, told behind the chains that follow it: "(2 dc, ch 2, 2 dc) ch 1, in the next corner space", or before it:
"last st gets 2 dc"; and places told by what was worked last: "in the 7 after that".

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_PLAIN = r"(?:sc|hdc|dc|htr|tr|dtr)"
_HERE = r"(?:(?:corner|side|edge|middle|center|centre|ch-?\d|ch|chain)[ -]?)*(?:sps?|spaces?|loops?|lps?|corners?|sts?|stitch|sides?)"
#: A group or stitches, the chains behind it, and where the group goes.
_GROUP_FIRST = when_used(
    rf"(?P<work>\([^()*]{{4,40}}\)|(?P<bare>\b[2-9] ?{_PLAIN}))(?P<gap>,? ?)(?P<ch>\b(?:ch ?\d|\d ?ch)),? (?P<in>in(?:to)?) (?P<where>(?:the )?(?:next|same|following|last|first) {_HERE})(?=\s*(?P<end>[,;.*)]|$|rep))"
)
_MANY = rf"(?:\d{{1,3}}|{lexicon.NUMBER_WORDS})"
_ANY = r"(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr|dtr|chs?|chains?|sps?|spaces?|loops?|lps?|corners?|clusters?|puffs?|shells?)"
_WORK = rf"(?:{_MANY} ?|an? )(?:{_PLAIN}|sts|stitches)\b|\([^()*]{{4,40}}\)"
#: "One last sc in top of turning ch".
_ONE_LAST = when_used(rf"(?P<one>(?<=[.,;] )(?:and )?(?:one|1|a) )(?P<last>(?:last|final|more last) )(?=(?:1 )?{_PLAIN} (?:in|into|on) )")
#: "Skip one of them": of those that are left.
_SOME_OF = when_used(rf"\b(?P<skip>(?:sk|skip|miss) (?:just |only )?{_MANY})(?P<of> of (?:them|these|those))\b")
#: "For every loop: 2 sc in it".
_FOR_EACH = when_used(
    rf"\bfor (?P<each>each|every) (?P<noun>(?:(?:corner|ch-?\d|\d-?ch|ch|chain) )?{_ANY})(?: across| around)?[:,]? (?:put |work |make |do )?(?P<work>{_WORK}) (?:in(?:to)?|over|around) (?:it|that|this one)(?=\s*(?:[.,;]|$))"
)
#: "Ch 3 and put 1 dc in with it".
_WITH_IT = when_used(r"\bin (?:there )?(?:with|beside|alongside|next to) (?:it|that|the (?:ch|chain))\b(?=\s*[,;.)])")
#: "8 sc into each ch-8 handle loop": what that loop is for.
_FOR_WHAT = when_used(r"(?P<ch>\b(?:ch-? ?\d{1,2}|\d{1,2}-?ch|chain) )(?P<what>(?:handle|strap|underarm|under arm|armhole|thumb|button|buttonhole|hanging|pocket)[- ])(?=(?:loop|lp|sp|space|gap)s?\b)")
#: "Hdc in each underarm ch": which chains those are.
_CHAINS_OF = when_used(r"(?P<lead>\b(?:each|every|all|the|\d{1,2})(?: of)?(?: the)?(?: \d{1,2})? )(?P<what>underarm|under arm|armhole|handle|strap|thumb|buttonhole|shoulder|neck|added|extra|new)(?= ch(?:ain)?s?(?: (?:sts?|stitches))?\b(?! ?\d))")
#: "Sc in the 12 heel sts": which those are.
_STS_OF = when_used(rf"(?P<in>\b(?:in(?:to)?|over|across|on|of) (?:each of )?(?:the |next |last |first |these |those )*{_MANY} )(?P<what>heel|toe|gusset|thumb|sleeve|cuff|brim|body|sole|front|back|neck|leg|arm|instep|foot|underarm|shoulder)(?= (?:sts?|stitches|sc|hdc|dc|htr|tr)\b)")
#: "Each of the 4 ch at both underarms": all of them; "any tr that follows a corner": any.
_AT_BOTH = when_used(r"\bin(?:to)? (?:each|every)(?: one)? of the \d{1,2} ch(?:ain)?s? (?:at|under|of|on) (?:both|each|the two|the) (?:underarms?|under arms?|sides|armholes?|sleeves?)\b")
_FOLLOWS = when_used(r"(?P<any>\b(?:any|an?|one) (?:sts?|stitch|sc|hdc|dc|htr|tr))(?P<said>,? (?:that|which|just|right|directly|immediately)? ?(?:follows|comes after|is after|stands behind|after|beside|next to) (?:an?|the|any|one) corner(?: (?:sp|space|group))?)(?=\s*[,.;])")
#: "In the 3rd chain of that ch 4": of the one the round began with.
_OF_THAT = when_used(r"(?P<nth>\b(?:\d(?:st|nd|rd|th)|third|fourth|second|top) (?:ch(?:ain)? )?of )that(?= (?:ch(?:ain)?[ -]?\d|first ch))")
#: "In the 2. ch from the hook": the second.
_DOTTED_NTH = when_used(r"\b(?P<lead>in(?:to)? )the (?P<n>[1-9])\. (?P<noun>ch|chain|st|stitch|sc|hdc|dc|htr|tr|loop|lp|sp|space|mesh)\b")
#: "1 sc in every ch out the row".
_OUT = when_used(r"(?P<each>\bin(?:to)? (?:each|every) (?:ch|chain|st|stitch|sc|hdc|dc|htr|tr))(?P<out> out(?: the (?:row|round))?)(?=\s*(?:[.,;=(]|$))")
#: "1 sc in every mask": a stitch, in the words of some who write in English.
_MASK = when_used(r"(?P<lead>\b(?:every|each|next|first|last|same|\d{1,3}) )mask(?P<s>s?)\b")
_END_ONE = when_used(r"\b(?P<in>in(?:to)? )the end (?P<one>one|ch|chain|st|stitch)\b")
_GAP = when_used(r"(?P<ch>\b(?:ch-?\d|\d-?ch)[- ])gap(?P<s>s?)\b")
#: "FPdc on the FPdc's": on each of them.
_THE_SAME = when_used(rf"\b(?P<prep>on|in|into|over|around|round) the (?P<k>(?:[fb]p ?)?{_PLAIN})'s(?![a-z])(?! of\b)")
#: "Then go back and dc in the one you skipped": the skipped one.
_ONE_SKIPPED = when_used(
    rf"(?P<back>\b(?:(?:and )?then )?(?:go|going|come|coming|reach|reaching) back (?:and|&) )?(?P<work>\b(?:{_MANY} )?{_PLAIN} (?:in(?:to)?|on) )(?:the )?(?P<st>one|st|stitch|{_PLAIN}) (?:that |which )?(?:you|we|i)(?:'ve| have)? (?:just )?(?:skipped|missed|passed)(?: over)?\b"
)
#: "Then go back and put 1 tr in the missed st": worked into it.
_GO_BACK = when_used(
    rf"(?P<lead>(?:^|[,;.] ?|\b(?:and|then|now) ))(?P<back>(?:(?:and|then|now) )*(?:go|going|come|reach|return)(?: back)?(?: (?:to it|over))? (?:and|&|to) (?:then |now )?(?:put |work |make |do |place |crochet )?)(?=(?:{_MANY} )?(?:[bf]p)?{_PLAIN} (?:in(?:to)?|on|around|round) (?:the )?(?:(?:missed|skipped|unworked|passed|first missed|first skipped) |(?:st|stitch|{_PLAIN}) (?:you )?(?:missed|skipped)))"
)
#: "3 sc in each of the four corner spaces": in each.
_ALL_CORNERS = when_used(r"\bin(?:to)? (?:each|every one|all)(?: one)? of the (?:\d|three|four|five|six|eight) (?P<corner>corners?(?: (?:ch-?\d |\d-?ch )?(?:sps?|spaces?|loops?|sts?|stitches))?)(?! of the next)")
#: "In the ch-2 space at the middle of any shell": in any; "at the tip in the ch-2 sp": in it.
_AT_MIDDLE = when_used(r"\b(?P<in>in(?:to)?|to) (?:the )?(?P<sp>(?:(?:ch-?\d|\d-?ch) )?(?:sp|space|loop|lp|ch-?\d sp))(?: (?:at|in) (?:the )?(?:middle|center|centre))? of (?:any|a|one|whichever)(?: one)? (?:shell|group|fan|cluster|v-?st|petal|corner|point)s?(?: you like)?(?=\s*(?:[,.;(]|$|and\b|with\b))")
_AT_TIP = when_used(r"\bat (?:the |each |every )?(?:tip|point|top|peak|cent(?:er|re)|middle|end)(?: of (?:the |each |this )?(?:point|petal|star|arm|leaf|shell|fan))?,? (?=in(?:to)? (?:the |next |that |its )*(?:ch-?\d|\d-?ch|sp|space|loop|lp)\b)")
#: "In the first 2 arches knit by 4 sc in each arch", "in the next 2 loops work in each: 1 sc, 3 dc, 1 sc".
_SPACES_FIRST = when_used(
    rf"(?P<lead>(?:^|(?<=[.;:] ))\W*(?:(?:then|now|next|again) )?)in (?:the )?(?P<which>first|next|last|following) (?:(?P<n>{_MANY}) )?(?P<noun>arch(?:es)?|loops?|lps?|spaces?|sps?),? (?:(?:knit|work|make|crochet|do|put|again|we make|we knit|we work|you work) )*(?:by )?(?P<each>in each(?: one| of them| arch| loop| space)?:? ?)?"
    rf"(?P<work>\d{{1,2}} ?{_PLAIN}(?:, ?\d{{1,2}} ?{_PLAIN}){{0,6}})(?P<each2> (?:in|into|for) each(?: one| of them| arch| loop| lp| space| sp)?)?(?=\s*(?:[.;]|$|[-\u2013\u2014] ))"
)
#: "In the 14 sts that were waiting from Rnd 3": those left unworked there.
_WAITING = when_used(r"(?P<n>\b\d{1,3} )?(?P<st>sts?|stitch(?:es)?|sc|hdc|dc|htr|tr)(?P<wait> (?:that|which|you) (?:(?:were|are|have been|was|had been) )?(?:left )?(?:waiting|unworked|behind|resting|on hold|aside|free|left|skipped)(?: (?:behind|aside|waiting|unworked))?) (?:from|on|in|at|since|of) (?P<r>(?:rnd|round|row) \d{1,2}|last (?:rnd|round|row)|the (?:toe|foot|heel|sole))\b")
#: "Leave Rnd 4 alone; attach ...".
_ROUND_ALONE = when_used(r"(?P<lead>(?:^|[.;,:] ?)\s*)(?:leave|leaving|ignore|ignoring|forget) (?:all |the )?(?:sts of |stitches of |sts in )?(?:the )?(?:(?:rnd|round|row) \d{1,2}|last (?:rnd|round|row)|inner [a-z]+)(?: (?:alone|be|as it is|unworked|free|untouched|behind|for now))*(?=\s*[;,.] )")
#: "In the gap between this shell and the next": before the next.
_THIS_AND_NEXT = when_used(r"\b(?P<gap>gap|sp|space) between (?:this|that|the last|the) (?P<noun>shell|group|fan|cluster|petal|scallop|v-?st)(?: just made| you(?:'ve| have)? just made)? and (?:the )?(?:next|following|one after)(?: one| (?P=noun))?(?=\s*(?:[,.;(]|$|and\b|then\b))")
#: "Last st gets 2 dc", "each corner space takes (2 dc, ch 2, 2 dc)".
_GETS = when_used(
    rf"\b(?P<where>(?:the )?(?:very )?(?P<which>last|first|next|each|every) (?:(?:corner|ch-?\d|\d-?ch|ch|chain) )?{_ANY}) (?:gets|takes|receives|is given) (?P<work>{_WORK})(?! ?tog)(?! (?:in|into|to|from|up)\b|, ?(?:an? |one |1 )?(?:picot|p)\b)"
)
#: "Sc in 2nd ch from hook and in the 7 after that": as many that follow.
_AFTER_THAT = when_used(rf"\bin (?:each of )?the (?P<n>{_MANY})(?P<noun> {_ANY})? (?:right |just |coming )?after (?:that|it|this)(?: one)?\b")
#: "1 dc in every ch-1-hole": a space.
_HOLE = when_used(r"(?P<ch>\b(?:ch-?\d|\d-?ch))[- ]hole(?P<s>s?)\b")
#: "Sc in the loop you're sitting in": the one that the hook is in.
_STANDING_IN = when_used(
    rf"\b(?P<in>in(?:to)?|around|over) (?:the |this |that )?(?P<noun>(?:(?:ch-?\d|\d-?ch|ch|chain) )?{_ANY}) (?:that |where )?(?:you(?:'re| are)|your hook is|the hook is|we(?:'re| are))(?: now| already| still| just| currently)?"
    r" (?:(?:sitting|standing|parked|resting|waiting|right|at) )*(?:in|at|on|inside)(?=\s*(?:[,;.:)]|$))"
)
#: "To the last ch come 4 sc", "in the 3rd st go 2 dc": a place with what it is given, behind the verb.
_THERE_COME = when_used(
    rf"\b(?P<in>in(?:to)?|on|to) (?P<where>(?:the )?(?:last|first|next|each|every|all|\d(?:st|nd|rd|th)) {_ANY}),?(?P<come> (?:there )?(?:comes?|go(?:es)?|belongs?))(?= (?:{_WORK}))"
)
#: "1 sc to each", "to all stitches sc": into it.
_TO_EACH = when_used(rf"(?P<lead>\b(?:{_MANY} )?{_PLAIN} |^\W*|[,;:.] )(?P<to>to)(?= (?:each|every|all)(?P<noun> (?:the )?(?:(?:corner|ch-?\d|\d-?ch|ch|chain) )?{_ANY})?(?P<end>\s*(?:[,.;(]|$)| around\b| across\b|,? (?:\d )?{_PLAIN}\b))")
#: "Sp formed by first dc and 3-dc group": the one between them.
_FORMED = when_used(r"\b(?P<sp>sp|space|gap) (?:formed|made|left|that lies) (?:by|between)(?! (?:the )?(?:last |joining )?(?:ch|\d ?ch))(?= [^,;.()]{2,30} and )")
#: "As Row 2 but work into tr": of what the row below is made; "but work in tr" is another stitch.
_INTO_KIND = when_used(rf"(?<=\d)(?P<said>,? but work(?:ing)? into (?:the )?{_PLAIN}s?)(?=\s*(?:[,.;)]|$))")
#: "Between every group of 2 come now 3 dc", "between the groups of 3: 2 dc, ch 1, 2 dc": what goes in these gaps.
_BETWEEN_FIRST = when_used(
    r"(?:(?<=^)|(?<=[.;,:] )|(?<=\bnow )|(?<=\band ))between (?:the |every |each |all )+(?:\d-?[a-z]{2,3} )?(?:groups?|clusters?|shells?|sets?|clumps?|bunches)(?: of (?:\d|two|three|four|five)(?: [a-z]{2,3})?)?"
    r"(?: ?:|,?(?: (?:come|comes|go|goes|work|make|put|we make|you make|you work|we work|crochet|is|are)(?: now)?)?) (?=(?:\(|\d{1,2} ?(?:sc|hdc|dc|htr|d?tr)\b))"
)
#: "... around the sc of Rnd 2, between petals", "in the sc that sits between the arms": where that place lies, said besides.
_WHERE_IT_LIES = when_used(
    rf"(?P<place>\b(?:in(?:to)?|on|around|round) (?:the )?(?:(?:post|stem|bar) of (?:the )?)?(?:(?:next|each|first|last|same) )?(?:{_PLAIN}|[sd] c|single|double)(?: (?:of|from) (?:the )?(?:\d{{1,2}}(?:st|nd|rd|th)?|first|second|third|fourth|fifth|sixth|seventh|eighth)? ?(?:rnd|round|row)(?: \d{{1,2}})?)?)"
    r"(?P<where>,? (?:(?:that|which) )?(?:(?:lies|sits|stands|is|falls|lying|sitting|standing|found) )?(?:right |exactly |just )?between (?:the |any |each |each two |every |2 |two |next 2 |next two )?(?:petals|arms|points|legs|leaves|wings|fans|shells|scallops|loops|tips))(?=\s*(?:[,.;)]|$))"
)
_OF_ROUND = when_used(r"\b(?:rnd|round|row)\b")
#: "The fourth-round single": the one of that round.
_ROUND_FIRST = when_used(
    rf"(?<=\bthe )(?P<nth>\d{{1,2}}(?:st|nd|rd|th)|first|second|third|fourth|fifth|sixth|seventh|eighth)[- ](?P<rnd>round|rnd|row)[- ](?P<st>single crochets?|double crochets?|singles?|doubles?|{_PLAIN}|sts?|loops?|lps?|spaces?|sps?)(?![a-z])(?! of\b)"
)
#: "2 dc in last st (= 3rd ch of the ch 4)": which that is.
_THAT_IS = when_used(rf"(?P<place>\b(?:in|into|on) (?:the )?(?:last|first|next) {_ANY} )(?P<is>\((?:=|i\.e\.,?|that is,?|this is|which is) (?:the |in the )?(?:top|\d(?:st|nd|rd|th)|third|fourth|second|first)\b[^()]*\))")
#: "Sc in each of next 59 ch along foundation": which side that is.
_ALONG_FOUNDATION = when_used(r"(?P<ch>\b(?:each|next|all|remaining|\d{1,3}) (?:of (?:the |next )?)?(?:\d{1,3} )?(?:remaining )?ch(?:ain)?s?)(?P<along> (?:along|of|across|on) (?:the |your )?(?:foundation|starting|original|beginning)(?: (?:ch(?:ain)?|edge|row))?)(?=\s*(?:[,.;)]|$))")
#: "1 dc in every htr, and don't forget the one on top of the missed chains".
_NOT_FORGOTTEN = when_used(
    rf"(?P<and>(?:,|;| -|\.)? ?(?:and |but )?)(?:do not|don't|dont|never|without|be sure not to) ?(?:forget(?:ting)?|miss(?:ing)?|skip(?:ping)?|overlook(?:ing)?|leave out)(?: about)? (?:(?:that|the|to work(?: one)?|working|your) )?(?:(?:last )?(?:one|st|stitch|{_PLAIN}) )?(?:that goes |worked |which goes )?(?:in(?:to)? |on |at )?(?:the )?(?P<top>top of )?(?:the |your )?"
    r"(?P<tch>turning[ -]ch(?:ain)?|t-?ch|beg(?:inning)?[ -]ch(?:ain)?(?:[ -]\d)?|ch-\d|(?:missed|skipped) (?:ch(?:ain)?s?|\d ch)|(?:turning|beginning) (?:\d ch|ch-?\d))(?: at the end)?(?=\s*(?:[,.;()!]|$))"
)
#: "Until the middle, there 2 dc, ch 2, 2 dc": in the place just said.
_THERE = when_used(r"(?P<to>\b(?:until|till|to|up to) (?:the )?(?P<where>middle|center|centre|corner|tip|point)(?: (?:sp|space|st))?),? (?:and )?there (?P<work>(?=\d|work|make|\())(?:work |make )?")
#: "In the middle: 2 dc, ch 2, 2 dc, dc in each dc": what goes there ends where it is as it began.
_IN_IT = when_used(
    rf"\bin (?P<the>the )?(?P<where>(?:middle|center|centre|corner|tip|point)(?: (?:sp|space|st))?):(?P<gap> +)(?P<group>(?P<n>\d ?{_PLAIN}), ?ch ?\d, ?(?P=n))(?=, (?:then |and )?(?:\d+ )?{_PLAIN} in\b)"
)
_LIMB_STS = r"(?:sts?|stitch(?:es)?|sc|h?dc|h?tr)\b"
_LIMB = r"(?:sleeve|arm|armhole|gusset|thumb|gore|heel|neck|under-?arm)"
#: "Sk the 8 gusset sts", "skip 28 sleeve dc": so many, told by what they are part of.
_LIMB_SKIPPED = when_used(rf"\b(?P<skip>(?:sk|skip|miss) (?:over )?(?:the |next |these |those |all )*(?:\d{{1,3}}|{lexicon.NUMBER_WORDS})(?: next)? )(?P<limb>{_LIMB} )(?={_LIMB_STS})")
#: "Sk sleeve sts, dc in next ch-1 sp": all as far as that.
_LIMB_PASSED = when_used(
    rf"\b(?:sk|skip|miss|leave) (?:over )?(?:(?:the|all|all of|these|those) )*(?:{_LIMB} {_LIMB_STS}|{_LIMB_STS} (?:of|for) (?:the |this |each )?(?:(?:first|second|next|other|left|right) )?{_LIMB}\b)(?: (?:unworked|on hold))?,? ?(?=(?:and |then )?(?:\d |1 |join |work )?\(?[a-z]{{2,3}}\b[^,;.]{{0,20}} (?:in|into) (?:the )?(?:next|last|other|following|corner|first) (?:corner|marked|raglan|ch|sp))"
)
#: "Foundation hdc (fhdc) 32": the stitch, its letters, how many.
_FOUNDATION_SAID = when_used(r"\b(?:foundation|base) (?P<st>sc|h?dc|h?tr|dtr|(?:single|half double|double|treble|half treble) crochets?) ?\((?P<f>f[sdht]{1,2}[cr]c?)\)(?= \d)")
#: "In the 4 sts left unworked in the last full row": where they lie, of those that are left.
_LEFT_IN = when_used(
    r"(?P<left>\b(?:left|unworked|skipped|remaining)(?: (?:sts|stitches))?)(?P<said> (?:in|on|of|from|at (?:the )?end of) (?:the |your )?(?:(?:last|previous|prev) )?(?:full|long|longer|complete|whole|longest)(?:[- ]length)? row)(?=\s*(?:[,;.)]|$))"
)
_ANY_ONE = r"(?:start(?:ing)?|begin(?:ning)?)(?: (?:the |this |your )?(?:rnd|round))? (?:in|at|with|on|from|over|around) (?:any|an?|one of the|whichever) (?P<st>(?:fp ?|bp ?)?(?:sc|h?dc|h?tr|dtr)|puff|cluster|cl|popcorn|bobble)(?: st(?:itch)?)?(?: (?:you like|of your choice))?"
#: "Ch 1, starting in any dc, *3 sc in dc, ...", "*FPdc around FPdc, ...; rep from * around, starting at any FPdc": where a round begins.
_STARTED = when_used(rf"(?P<lead>^\W*)(?P<ch>(?:ch ?\d|\d ?ch)(?: \([^()]*\))?[,.;] ?)?(?:and )?{_ANY_ONE} ?[:,;.-]")
_STARTED_BEHIND = when_used(rf"(?P<lead>^\W*)(?P<work>(?:ch ?\d|\d ?ch)?.*\* ?(?:around|[^*]{{0,24}}around))[,;]? \(?{_ANY_ONE}\)?(?=\W*(?:[(\[][^()]*[)\]]\W*)?$)")
#: "New color in any sp between dc.", "with B in any corner sp:": the yarn is joined there.
_NEW_COLOUR = when_used(r"^(?P<lead>\W*)(?P<yarn>(?:(?:with|using) )?(?:a |the |your )?(?:new|next|second|third|fourth|2nd|3rd|4th|another|other) colou?r),? (?P<in>in|to|between) (?P<any>any|an?|one|the first)\b")
#: "... in each BPdc as they face you": as they are seen.
_AS_FACED = when_used(r"(?<=[a-z]) (?P<said>as (?:they|it|each|the sts?|stitches) (?:now )?(?:faces?|faces? (?:to|towards?)|presents? (?:itself|themselves) to|appears? to|looks? to|looks? at|is facing|are facing) (?:you|us))(?=\s*(?:[,;.)]|$))")
#: "Join between any 2 sts. *Puff in the space between sts": in one of these gaps.
_JOIN_BETWEEN = when_used(r"(?P<join>\b(?:join|attach)(?: (?:yarn|[a-f]|colou?r [a-f]|new colou?r))?)(?: with (?:an? )?(?:sl ?st|ss))? +(?:in (?:any |a |the )?(?:sp|space|gap) )?between (?:any |the )?(?:2|two) (?:sts|stitches|sc|h?dc|h?tr)\b(?=[^*(]{0,40}[*(].*\b(?:sp|space|gap)s?\b)(?!.*\bsame\b)")
#: "..., ch 1, move to next space; rep from *": the way to where the repeat goes on.
_MOVE_ON = when_used(r"[,;.]? ?(?:and |then )*(?:move|go|moving|going|proceed|continue)(?: along| over| on)* to (?:the )?(?:next|following) (?:sp|space|st|stitch|gap|ch-?\d? ?sp|lp|loop|one|corner|side|group|petal)(?=\s*(?:[;)\]*]|[.,] ?(?:rep|\*)))")
#: "Join to work in the round": what it is joined for.
_JOIN_FOR = when_used(r"(?P<join>\bjoin(?: with (?:an? )?(?:sl ?st|ss|slip stitch))?(?: (?:the )?ends?)?)(?P<why>,? (?:(?:and|in order|so as) )*(?:to |for )(?:be )?(?:work|crochet|continue|begin|start|work(?:ed|ing)|continuing)(?: working| to work)? (?:in|into) (?:the |a )?(?:round|rnd|circle)s?)(?=\s*(?:[,;.(\[]|and\b|$))")
_REPEATS = when_used(r"\W*(?:$|(?:rep|repeat|rpt|join|around|\*))")

#: The two signs of a bracket.
TWO = 2


def places_evened(low: str) -> str:
    """The text with a group's place before the chains that follow the group.

    >>> places_evened("*(2 dc, ch 2, 2 dc) ch 1, in the next corner space. rep from * around")
    '*(2 dc, ch 2, 2 dc) in the next corner space, ch 1. rep from * around'
    >>> places_evened("last st gets 2 dc"), places_evened("sc in the loop you're sitting in, ch 5")
    ('2 dc in last st  ', 'sc in same loop                , ch 5')
    """
    low = _words_of_others(_told_besides(low))
    low = _THAT_IS.sub(lambda m: m["place"] + " " * len(m["is"]), low) if "(" in low else low
    low = _ALONG_FOUNDATION.sub(lambda m: m["ch"] + " " * len(m["along"]), low)
    low = _NOT_FORGOTTEN.sub(_and_in_chain, low)
    low = _THERE.sub(lambda m: f"to {m['where']}, in {m['where']}: ".ljust(len(m[0])) if len(m[0]) >= len(f"to {m['where']}, in {m['where']}: ") else m[0], low) if " there " in low else low
    low = _IN_IT.sub(lambda m: f"in {m['where']} ({m['group']})".ljust(len(m[0])) if len(m["gap"] + (m["the"] or "")) > TWO else m[0], low)
    low = _INTO_KIND.sub(lambda m: " " * len(m[0]), low) if " but work" in low else low
    low = _GETS.sub(_given, low)
    low = _LIMB_PASSED.sub(lambda m: " " * len(m[0]), _LIMB_SKIPPED.sub(lambda m: m["skip"] + " " * len(m["limb"]), low))
    if " any " in low or "begin" in low or "start" in low:
        low = _STARTED.sub(_begun_at, low)
        low = _STARTED_BEHIND.sub(_begun_there, low)
    low = _NEW_COLOUR.sub(_joined_anew, low) if "color" in low or "colour" in low else low
    low = _AS_FACED.sub(lambda m: " " * len(m[0]), low)
    low = _LEFT_IN.sub(lambda m: m["left"] + " " * len(m["said"]), low)
    low = _JOIN_BETWEEN.sub(lambda m: f"{m['join']} in any gap".ljust(len(m[0])), low) if "between " in low else low
    low = _MOVE_ON.sub(lambda m: " " * len(m[0]), low) if " to " in low else low
    low = _JOIN_FOR.sub(lambda m: m["join"] + " " * len(m["why"]), low) if "join" in low else low
    low = _FOUNDATION_SAID.sub(lambda m: m["f"].ljust(len(m[0])), low)
    if "between " in low:
        low = _BETWEEN_FIRST.sub(_in_gaps, low)
    low = _FORMED.sub(lambda m: f"{m['sp']} between".ljust(len(m[0])), low) if " and " in low else low
    low = _SOME_OF.sub(lambda m: m["skip"] + " " * len(m["of"]), low) if " of th" in low else low
    low = _FOR_EACH.sub(lambda m: f"{m['work']} in {m['each']} {m['noun']}".ljust(len(m[0])), low) if "for " in low else low
    low = _WITH_IT.sub(lambda m: "in same".ljust(len(m[0])), low) if "in " in low and "ch" in low else low
    low = _THE_SAME.sub(lambda m: f"{m['prep']} each {m['k']}".ljust(len(m[0])), low) if "'s" in low else low
    low = _ONE_SKIPPED.sub(lambda m: f"{m['work']}skipped {'st' if m['st'] in ('one', 'stitch') else m['st']}".ljust(len(m[0])), low) if "skipped" in low or "missed" in low or "passed" in low else low
    low = _GO_BACK.sub(lambda m: m["lead"] + " " * len(m["back"]), low) if " back " in low else low
    low = _ONE_LAST.sub(lambda m: "1".ljust(len(m[0])), low)
    low = _AFTER_THAT.sub(lambda m: f"in next {m['n']}{m['noun'] or ''}".ljust(len(m[0])), low) if "after" in low else low
    low = _STANDING_IN.sub(lambda m: f"{m['in']} same {m['noun']}".ljust(len(m[0])), low)
    low = _THERE_COME.sub(lambda m: f"in {m['where']}".ljust(len(m[0])), low)
    low = _TO_EACH.sub(lambda m: m["lead"] + "in", low) if "to " in low else low
    found = list(_GROUP_FIRST.finditer(low)) if "ch" in low else []
    told_so = {m.start() for m in found if m["bare"] is None and _REPEATS.match(low, m.end())}
    if not told_so:
        return low
    return _GROUP_FIRST.sub(_place_first, low)


def _told_besides(low: str) -> str:
    """Places without what is said besides of where they lie."""
    if "between" in low:
        low = _WHERE_IT_LIES.sub(_where_it_lies, low)
    if "round" in low or "rnd" in low or "row" in low:
        low = _ROUND_FIRST.sub(lambda m: f"{m['st']} of {m['nth']} {m['rnd']}", low) if "-" in low else low
    low = _FOR_WHAT.sub(lambda m: m["ch"] + " " * len(m["what"]), low)
    low = _HOLE.sub(lambda m: f"{m['ch']} sp{m['s']}".ljust(len(m[0])), low) if "hole" in low else low
    low = _ALL_CORNERS.sub(lambda m: f"in each {m['corner'] if not m['corner'].startswith('corners') else 'corner' + m['corner'][7:]}".ljust(len(m[0])), low) if "corner" in low else low
    low = _AT_MIDDLE.sub(lambda m: f"{m['in']} any {m['sp']}".ljust(len(m[0])), low) if " of " in low else low
    low = _AT_TIP.sub(lambda m: " " * len(m[0]), low) if "at " in low else low
    low = _SPACES_FIRST.sub(_spaces_last, low)
    low = _WAITING.sub(_left_there, low)
    low = _ROUND_ALONE.sub(lambda m: m["lead"] + " " * (len(m[0]) - len(m["lead"])), low) if "r" in low else low
    low = _THIS_AND_NEXT.sub(lambda m: f"{m['gap']} before next {m['noun']}".ljust(len(m[0])), low) if "between" in low else low
    low = _CHAINS_OF.sub(lambda m: m["lead"] + " " * len(m["what"]), low)
    low = _STS_OF.sub(lambda m: m["in"] + " " * len(m["what"]), low)
    return low


def _words_of_others(low: str) -> str:
    """Places in the words of some who write in English, and in the corners of sleeves, in the usual words."""
    low = _OF_THAT.sub(lambda m: m["nth"] + "the ", low) if "of that" in low else low
    low = _AT_BOTH.sub(lambda m: "in each ch".ljust(len(m[0])), low) if " of the " in low else low
    low = _FOLLOWS.sub(lambda m: m["any"] + " " * len(m["said"]), low) if "corner" in low else low
    low = _DOTTED_NTH.sub(lambda m: f"{m['lead']}{m['n']}{ {'1': 'st', '2': 'nd', '3': 'rd'}.get(m['n'], 'th')} {m['noun']}".ljust(len(m[0])), low)
    low = _OUT.sub(lambda m: m["each"] + " " * len(m["out"]), low) if " out" in low else low
    low = _MASK.sub(lambda m: f"{m['lead']}st{m['s']}".ljust(len(m[0])), low) if "mask" in low else low
    low = _END_ONE.sub(lambda m: f"{m['in']}last {m['one']}".ljust(len(m[0])), low) if " end " in low else low
    return _GAP.sub(lambda m: f"{m['ch']}sp{m['s']}".ljust(len(m[0])), low) if "gap" in low else low


def _spaces_last(found: re.Match[str]) -> str:
    """What goes into each of so many spaces, before them."""
    if found["each"] is None and found["each2"] is None and found["n"] is not None:
        return found[0]
    many = f"each of next {found['n']} " if found["n"] else ("last " if found["which"] == "last" else "next ")
    work = f"({found['work']})" if "," in found["work"] else found["work"]
    told = f"{found['lead']}{work} in {many}{found['noun']}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _left_there(found: re.Match[str]) -> str:
    row = found["r"] if "the " not in found["r"] else "last row"
    told = f"{found['n'] or ''}unworked {found['st']} of {row}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _where_it_lies(found: re.Match[str]) -> str:
    """A place without what it lies between; but "between petals" alone says of which round it is."""
    if "petal" in found["where"] and not _OF_ROUND.search(found["place"]):
        told = f"{found['place']} between petals"
        return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]
    return str(found["place"] + " " * len(found["where"]))


def _and_in_chain(found: re.Match[str]) -> str:
    """The turning chain that is not to be forgotten as one place more."""
    if not found.string[: found.start()].strip():
        return found[0]
    return f", and in {'top of ' if found['top'] else ''}tch".ljust(len(found[0]))


def _joined_anew(found: re.Match[str]) -> str:
    where = f" {found['in']} {found['any']}"
    return f"{found['lead']}join".ljust(len(found[0]) - len(where)) + where


def _begun_at(found: re.Match[str]) -> str:
    told = f"{found['lead']}join at any {found['st']}. {found['ch'] or ''}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _begun_there(found: re.Match[str]) -> str:
    """Where a round begins, told before its work."""
    told = f"{found['lead']}join at any {found['st']}. {found['work']}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _in_gaps(found: re.Match[str]) -> str:
    told = next((said for said in ("in each sp between groups ", "in each gap ") if len(said) <= len(found[0])), found[0])
    return told.ljust(len(found[0]))


def _given(found: re.Match[str]) -> str:
    """What a place is given, before the place."""
    told = f"{found['work']} in {found['where']}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _place_first(found: re.Match[str]) -> str:
    told = f"{found['work']} {found['in']} {found['where']}, {found['ch']}"
    if len(told) > len(found[0]):  # no sign stood there
        told = f"{found['work']} {found['in']} {found['where']} {found['ch']}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]
