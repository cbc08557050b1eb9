"""Habits of older and hurried print: loops told in a sentence, a mark left out of "rep from", what is left over told as
"work to end", chains skipped as "skip ch2".

Every function takes a row's text in lower case and gives it letter for letter as long as before.
"""

from __future__ import annotations

import re

from ... import lexicon
from ...when_used import when_used

_NUMBER = rf"(?:\d{{1,2}}|{lexicon.NUMBER_WORDS})"
_PLAIN = r"(?:s ?c|h ?d ?c|h ?tr|d ?c|d ?tr|tr|sts?|stitch(?:es)?|single crochets?|double crochets?|half doubles?|trebles?)"
_AT_ENDS = r"(?=\s*(?:[,;.):]|$))"
#: "Working only in the BACK loops (loops farthest from you) of the tops of the sc's", "picking up only the back loop of each
#: d c", "take up the front loops of the stitches throughout": the loop alone that all stitches go into.
_LOOPS_SAID = when_used(
    r"(?P<lead>\b(?:(?:always |now )?(?:work(?:ing|ed)?|crochet(?:ing|ed)?|go(?:ing)?|made|insert(?:ing)? (?:the |your )?hook) (?:all (?:sts |stitches )?|only |entirely )?(?:in(?:to)?|through|thru|under)"
    r"|(?:only )?with (?:everything|it all|all of (?:it|them)|all (?:your|the) (?:sts|stitches)) (?:in(?:to)?|through|thru|under)|(?:now |only )?(?:put(?:ting)?|mak(?:e|ing)|do(?:ing)?|work(?:ing)?|plac(?:e|ing)|stick(?:ing)?) (?:everything|it all|them all|all of (?:it|them)|all (?:your|the|these) (?:sts|stitches)|each st|every st(?:itch)?) (?:in(?:to)?|through|thru|under)|(?:always )?(?:pick|tak|catch)(?:e|ing)?(?: up)?) )(?:only )?(?:from |through )?(?:the )?(?P<side>back|front|rear|near|far) (?:loops?|lps?|threads?|strands?)(?: only)?"
    rf"(?: ?\((?:the )?(?:loops?|ones?|lps?|those)? ?(?:farthest|furthest|nearest|closest|away|at the back|at the front)[^()]{{0,20}}\))?(?: only)?(?: of(?: the tops? of)?(?: (?:the|each|every|all))*(?: (?:loops?|lps?|{_PLAIN})(?:'s)?)?(?: (?:of|in) (?:the )?(?:previous|last|prev) (?:row|rnd|round))?)?(?: throughout)?{_AT_ENDS}"
)
#: "Repeat from 6 times more": the mark that was left out, of a row that has one.
_NO_MARK = when_used(rf"\b(?P<rep>rep(?:eat)?) from(?= (?:{_NUMBER} (?:more )?times|{_NUMBER} more|once|twice|around|across|to (?:the )?end))")
#: "..., work to end - 63 dc": what is left over takes a stitch each.
_WORK_ON = when_used(r"(?<=[,;.)] )(?:(?:and|then) )?(?P<work>(?:work|crochet|continue) (?:to (?:the )?end|across|around)(?: of (?:the )?(?:row|rnd|round))?)(?=\s*(?:[,;.]|[-\u2013=(]\s*\d|$))")
_LAST_STITCH = when_used(r"\b\d{1,2} ?(?P<st>sc|hdc|dc|htr|tr|dtr)\b(?! ?\d? ?tog)")
#: "Skip ch2, 5 dc in next ch", "skip ch1": so many chains, where chains of the foundation are told.
_SKIP_CHAINS = when_used(r"\b(?P<skip>sk|skip|miss)(?P<room> )ch ?(?P<n>\d)(?! ?-?(?:sp|space|lp|loop))(?=\s*[,;.])")
_ON_CHAINS = when_used(r"\b\d(?:nd|rd|th) (?:ch(?:ain)? )?from (?:the )?(?:hook|needle)\b|\bin (?:the )?next ch\b")
#: "Working on opposite of ch": that side of it.
_OPPOSITE_OF = when_used(r"\b(?P<on>on |along |in |up |down )(?P<the>the )?opposite of (?P<ch>(?:the )?(?:foundation |starting |beg(?:inning)? )?ch(?:ain)?)\b")
#: "I did 10 hdc in the centre of the hole.": what the row is, told as what was done.
_WAS_DONE = when_used(rf"^(?P<lead>\W*)(?P<did>(?:i|we) (?:did|made|worked|crocheted|have|do|make|work) )(?=\d{{1,2}} ?{_PLAIN}\b)")
_CENTER_OF = when_used(r"\b(?P<into>in(?:to)? )(?:the )?(?:cent(?:er|re)|middle) (?:of )?(?:the |your )?(?P<hole>hole|ring|circle|loop)\b")
#: "2 hdc into each stitch, leaving you with 20 hdc": what the row has then, and nothing unworked.
_LEAVING = when_used(
    rf"(?P<work>\b(?:in(?:to)?|over) (?:each|every|all)\b(?![^.]*\b(?:last|until|till|except|remain)\b)[^.;]*?),? (?P<said>leaving (?:(?:you|us) )?(?:with )?(?:a total of )?)(?P<n>\d{{1,3}}) ?(?P<st>{_PLAIN})?(?=\W*$)"
)


#: "In loop where the 2 sl sts were made": as "where sl st made".
_WHERE_SLIPPED = when_used(r"\b(?P<where>where )(?:the |your )?(?:(?:first|last) )?(?:\d |two |three )?(?:sl sts?|slip sts?|slip stitch(?:es)?)(?: (?:was|were|are|is|have been))? (?:made|worked|done)\b")
#: "Repeat to the end of the last sc": to that one.
_END_OF_LAST = when_used(r"\b(?P<to>to|until|till) (?:the )?end of (?=(?:the )?last (?:sc|hdc|dc|htr|tr|st|stitch|shell|sp|ch)\b)")
#: "* 2 sc in next st, 1 sc in next st, repeat from *, * 1 sc in next st, ...": once more, where another repeat follows.
_REP_THEN_STAR = when_used(r"\b(?P<rep>rep(?:eat)?) from \*(?=[,;] ?\*)")
_REP_THEN_WORK = when_used(rf"\b(?P<rep>rep(?:eat)?) from \*(?=[,;] ?(?:\d{{1,2}} )?{_PLAIN} in (?:each of )?(?:the )?next)")
#: "... to last st. At this point make an hdc in first sc": where the row stands.
_AT_THIS = when_used(r"(?:(?<=[.,;] )|(?<=\band ))(?:now )?at (?:this|that) (?:point|stage|place)(?: (?:of|in) the (?:row|rnd|round))?,? (?=[a-z0-9])")
#: "2 dc in 2ch space, ch 2, 2 dc in 2ch space still": the same one.
_STILL = when_used(r"\b(?P<in>in(?:to)? )(?P<place>(?:the )?(?:(?:ch[- ]?)?\d(?:[- ]?ch)? ?)?(?:sp|space|loop|lp|st|stitch|corner) still)\b")
#: "With red, work. 48 sc over the ring": a stop that parts nothing.
_WORK_STOP = when_used(r"\b(?P<work>work|make)\. (?=\d{1,3} ?[sdht])")
#: "(3 dc, ch 1, 3 dc) directly on top of the next puff": into it.
_ON_TOP_OF = when_used(r"\b(?:directly |right )?(?P<on>on top of) (?=(?:the )?(?:next|each|same|last)\b)")
#: "On the last pull-through of row 5": where yarn is changed; of several rows, in the one that is named.
_PULL_THROUGH = when_used(
    r"\b(?P<in>on|in|at|with|during) (?P<last>(?:the |your )?(?:(?:very )?last|final) (?:pull|draw|yarn)[- ]?(?:through|thru|over)s?)(?P<of> of (?:the )?(?:(?:this|last|each) )?(?:row|rnd|round|st|stitch|sc|dc|hdc|tr)(?: \d{1,3})?)?(?=\s*(?:[.,;)]|$))"
)
#: "Close 2 sc together", "close together 3 dc": gathered, word for word from other languages.
_CLOSE_TOGETHER = when_used(rf"\b(?:close|shut|finish|end) (?:(?P<n>\d) ?(?P<st>{_PLAIN}) (?:together|tog)|(?:together|tog) (?P<m>\d) ?(?P<st2>{_PLAIN}))(?![a-z])")
#: "2nd ch counting from the hook", "2nd ch (counted from the hook)".
_COUNTING = when_used(r"(?P<open>,? ?\(| |, )(?:counting|counted|counts|reckoned|reckoning) from (?:the |your )?(?P<hook>hook|needle)(?P<close>\)?)")
#: "... but go behind the first 3 tr this time": as it is usually said of crossed stitches.
_GO_BEHIND = when_used(
    r"(?P<but>,? ?(?:but|and|only) )(?:this time )?(?:go(?:ing)?|work(?:ing)?|cross(?:ing)?|pass(?:ing)?) (?:in )?(?P<side>behind|back|front)(?: of)?(?: (?:the|those|them|sts?|stitches|first|other|last|just made|\d|fptr|fpdc|d?tr|dc|sts))*(?: (?:this time|instead))?(?: of (?:in )?(?:front|back|behind))?(?=\s*(?:[.,;]|$))"
)
#: "Going in front of those just made FPtr around the skipped sts": two clauses.
_JUST_MADE = when_used(r"(?<=\bmade) (?=(?:\d )?(?:fp|bp)?(?:dc|d?tr|hdc|sc)\b)")
#: "Working in front of these FPtr around each of the skipped sts": what is worked past is not named, the stitch is worked.
_PAST_THESE = when_used(
    r"(?P<past>\b(?:in front of|in back of|behind) (?:these|those|them|this|it))(?P<gap> )(?=(?:\d )?(?:fp ?|bp ?)?(?:dc|htr|d?tr|hdc|sc) (?:(?:in|around|round|over|into) (?:the |each |both |next |first |last )|each |(?:in|around|round|over|into) \d))"
)
#: "The 2 sts skipped": the skipped ones.
_SKIPPED_BEHIND = when_used(r"\b(?P<the>(?:the|those|these) (?:\d )?)(?P<st>sts?|stitch(?:es)?|dc|sc|hdc|tr) (?P<skipped>skipped|missed)(?=\s*(?:[.,;)*\]]|$|then\b|and\b))")
#: "4 ch in the air": chains, word for word from other languages.
_IN_THE_AIR = when_used(r"(?P<ch>\b(?:ch ?\d{1,2}|\d{1,2} ?ch(?:s|ains?)?(?: sts?)?))(?P<air> (?:in|on) (?:the )?air)\b")


_AS_DONE = r"(?: (?:as|like) (?:before|explained|above|described|shown|always|usual|last time|in (?:the )?(?:last|previous|prev) (?:rnd|round)|you did (?:before|in (?:the )?last (?:rnd|round))|I (?:told|explained|described)(?: you)?|on (?:the )?(?:last|previous) (?:rnd|round)))?".lower()
#: "Hop to the corner as before": over the stitches up to it.
_HOPS = when_used(
    rf"(?P<lead>^\W*(?:(?:turn|now turn|with [a-z]+|do not turn)[,.;] )?)(?P<go>(?:(?:now |then |first )?(?:hop|jump|get|go|travel|walk|wander|crawl|sneak|step|slide|move|slip|make your way|work your way|find your way)) (?:yourself |back |over |along |across |up )*(?P<to>to|into) )(?P<where>(?:the |your |next |first |nearest )+corner(?: (?:sp|space|gap|ch-?\d sp))?)(?P<as>{_AS_DONE})(?: again)?(?=\s*(?:[,.;:(-]|$|and\b|then\b))"
)
_SLIPS_AS = when_used(rf"(?P<sl>\b(?:sl(?:ip)? ?st(?:itch)?|ss) (?:over |along |across )?(?:to|into) (?:the |next |first )*(?:corner|centre|center|sp|space|loop|lp)(?: (?:sp|space))?)(?P<as>(?! as (?:shown|usual) in){_AS_DONE})(?=\s*(?:[,.;:(-]|$))")
#: "Working behind petals as before": that is told already.
_BEHIND_AS = when_used(rf"(?P<work>\bwork(?:ing)?(?: again| once more| only)? (?:behind|in front of|in back of|in the back of) (?:the |your |all )*(?:petals?|leaves|flower|last (?:rnd|round)|(?:previous|prev) (?:rnd|round)|shells?|rnd \d+|round \d+))(?P<as>,?(?! as (?:shown|usual) in){_AS_DONE})(?=\s*[,.;:*(])")
#: "Like 4. row": like row 4.
_NTH_DOTTED = when_used(r"(?P<as>\b(?:like|as|as in|same as|repeat|rep|work|knit) (?:the |in )?)(?P<n>\d{1,2})\. (?P<row>row|rnd|round)\b")
#: "Pass 8 st of wedge", "sk 28 dc of sleeve": which part they are of.
_OF_PART = when_used(
    r"(?P<skip>(?<![a-z])(?P<how>skip|sk|miss|pass(?: over| by)?|leave out|jump over|let wait|omit) (?:the )?(?:next )?)(?P<n>\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|twelve) (?P<st>sts?|stitches|sc|hdc|dc|htr|tr)"
    r"(?P<of> (?:of|for) (?:the |your )?(?:thumb|sleeve|wedge|gusset|heel|armhole|underarm|front|back|body|neck|leg|arm|ear|finger|handle|strap|hole|opening)(?: (?:sts|section|part|hole|opening|gusset))?)?(?=\s*(?:[,.;)]|$|and\b))"
)
#: "Sc in each of next 15 dc, skipping over the ch-1 sps": what stitches by their name pass over anyway.
_PASSING = when_used(
    r"(?P<work>\b(?:in|into|under) (?:each (?:of )?)?(?:the )?(?:next )?(?:\d{1,3} )?(?:sc|hdc|dc|htr|tr|dtr|(?:ch-?\d|one-chain|two-chain|ch)(?: (?:sps?|spaces?|lps?|loops?))?)s?(?: (?:(?:all )?across|(?:all )?around))?)(?P<passing>,? (?:and )?(?:skipping|passing|going|missing|ignoring|jumping|leaving out) (?:over |across |past )?(?:the |all |any |each |every )*(?:(?:ch-?\d|\d-?ch|ch|chain)[- ]?(?:sps?|spaces?|s)?|doubles|singles|trebles|dcs?|scs?|stitches|sts)(?: (?:in )?between(?: them)?| as you (?:go|come to them))?)(?=\s*(?:[,.;*)(]|$))"
)
#: "We put the hook only under the back half of stitch": the loop that it goes into.
_HALF = when_used(
    r"(?P<lead>^\W*|(?<=[.;,:] ))(?:(?:now|here|then|so) )?(?:(?:we|you|i) )?(?:(?:always|now|again|only) )?(?:put|insert|stick|bring|lead|pick|go|work|crochet) (?:the |your )?(?:hook )?(?:only |just )?(?:under|in(?:to)?|through|behind) (?:only |just )?(?:the )?(?P<half>back|front|rear|far|near) (?:half|part|wall|side|leg)(?: only)? of (?:the |each |every |a )?(?:stitch(?:es)?|sts?)\b(?P<and>,? (?:and|then) (?:we |you )?)?"
)
_BOTH_HALVES = when_used(r"(?P<under>\b(?:under|in|into|through) )(?P<both>(?:again )?both (?:halves|parts|walls|sides|legs)(?: of (?:the |each |every )?(?:stitch(?:es)?|sts?)\b)?)")
#: "With one chain between, and one chain after the last": between all, also at the end.
_AND_AFTER_LAST = when_used(r"(?P<with>\b(?:with|having|leaving) (?:a |one |1 |ch ?1|two |2 |ch ?2|three |3 |ch ?3)(?: ?ch(?:ain)?s?)? (?:sts? )?(?:in )?between(?: (?:each|them|all))?)(?P<last>,? (?:and |also )+(?:(?:a|one|1|two|2|three|3) ch(?:ain)?s?|ch ?\d|the same(?: number)?|another(?: one)?) (?:after|behind|following) (?:the )?last(?: one| of them| dc| double)?)(?=\s*(?:[,.;]|$))")
#: "Under each one-chain": the space of it.
_ONE_CHAIN = when_used(r"(?P<in>\b(?:in|into|under|over|around|round) (?:each|every|next|the|same|the next|the first|first|last|the last) )(?P<n>one|two|three|four|five)-chain(?P<noun>s?\b| (?:sps?|spaces?|loops?|lps?)\b)")
#: "Just swing around and keep going along the other side of the chain".
_SWINGS = when_used(
    r"(?P<swing>(?:just |simply |now |then )*(?:swing|spin|swivel|twist|pivot|flip|go|come|turn the work|rotate)(?: (?:it |the work |your work |yourself )?(?:a?round|upside down))? (?:and|to) (?:(?:just |then |now )*(?:keep going|carry on|continue|go on|go|keep on|work|keep working|crochet)(?: working)?) )(?P<along>(?:along|down|on|up) (?:the )?(?:other|opposite|second|bottom|free) side)"
)
#: "Hdc2tog 8 times over the toe": where that lies.
_OVER_PART = when_used(r"(?P<times>\b(?:\d{1,2} times|twice|\d{1,3} (?:sts|stitches|sc|hdc|dc|htr|tr)))(?P<over> (?:over|across|for|at|round|around|along) (?:the |your )(?:toes?|heel|instep|sole|ankle|crown|brim|thumb|forehead|nose|snout|belly|back of (?:the )?(?:head|heel)|front of (?:the )?foot))(?=\s*(?:[,.;(]|$))")
#: "Leaving all ch-5 lps of R2 free".
_LEFT_FREE = when_used(r"(?P<leaving>,? (?:leaving|and leave|leave|keeping|keep) (?:all |the |all the |those |these )?(?:(?:ch-?\d|\d-?ch|small|little|outer|inner|remaining|other) )?(?:loops|lps|spaces|sps|petals|picots|arches|points|leaves|front loops|front lps) (?:of|from|on|in) (?:the )?(?:(?:r|rnd|round|row) ?\d{1,2}|last (?:rnd|round|row)|previous (?:rnd|round|row)|\d(?:st|nd|rd|th) (?:rnd|round|row))(?: (?:free|alone|unworked|empty|as they are|hanging|in front|behind|standing)))(?=\s*(?:[,.;]|$))")
#: "I.e. the very first one and its neighbour": said again.
_THAT_IS_TO_SAY = when_used(r"(?P<ie>,? ?(?:i\. ?e\.|ie|viz\.),? (?:in )?(?:the|that|its|both|your|one)\b(?:(?!\b(?:sc|hdc|dc|htr|tr|ch|work|make|skip|miss|sl|join|turn|rep|repeat|next)\b)[^,;.()*]){2,50})(?=[,;.)])")
_FROM_EDGE = when_used(r"\b(?P<skip>skip|sk|miss) (?:the )?(?P<n>\d|two|three|one) (?P<st>sts?|stitch(?:es)?|sc|hdc|dc|htr|tr) from (?:the )?(?:edge|beginning|start|side)(?=\s*(?:[,;.]|$))")
#: "Carry on from * to the end".
_CARRY_ON = when_used(r"\b(?P<on>(?:carry|carrying|keep|keeping|go|going) on|keep going|start again|go again|begin again|do it all again)(?P<from>,? (?:again )?from (?:the )?\*)")
#: "As for Row 2, except that you are working in sc rather than hdc": what that row is worked on.
_ON_OTHERS = when_used(r"(?P<row>\b(?:row|rnd|round) \d{1,2})(?P<but>,? (?:except|only|but)(?: that)?(?: this time| now)? (?:(?:you|we)(?:'re| are)? )?(?:now )?work(?:ing)? (?:in(?:to)?|on|over) (?:the )?(?:sc|hdc|dc|htr|tr|sts)(?:'?s)? (?:rather than|instead of|and not|not) (?:in(?:to)? |on |over )?(?:the )?(?:sc|hdc|dc|htr|tr|chains?|sts)(?:'?s)?)(?=\s*(?:[.,;(]|$))")
#: "..., 40 hdc in all, then turn": the count, before the turn.
_IN_ALL_TURN = when_used(r"(?P<and>,) (?P<n>\d{1,3} (?:sts?|stitches|sc|h?dc|h?tr|dtr)) (?:in all|in total|altogether|all told),? (?:and |then |and then )?turn\b")
#: "Slip stitches in every stitch": one in each.
_SLIPS_EACH = when_used(r"(?P<lead>(?:^|[.,;:(*] ?)\s*(?:(?:now|then|work|make|crochet|loose) )*)(?:slip stitches|sl ?sts)(?= (?:loosely )?(?:in|into|through) (?:every|each|all)\b)")
#: "..., not too tight please".
_NOT_TIGHT = when_used(r"(?P<said>,? (?:but |and )?(?:please )?(?:not too|not so|nice and|nice &|pretty|fairly|very|quite|rather|a bit|a little|as) (?:tight|loose|firm)(?:ly)?(?: please| though| here| as you can)?)(?=\s*(?:[.,;:(=!]|-|$))")
#: "7 sc in each of next 2 loops (skipping the sc between)": passed over anyway.
_BETWEEN_LOOPS = when_used(r"(?P<in>\b(?:in|into|over) (?:each of )?(?:the )?(?:next |following |last )?(?:2|two|3|three|both|all) (?:(?:ch-?\d|\d-?ch) )?(?:loops|lps|spaces|sps|arches))(?P<said>,? ?\(?(?:skipping|skip|passing over|missing|and skip|miss) (?:the |all |any |each )?(?:\d |one )?(?:sc|dc|st|sts|stitch|stitches|tr|hdc|s c)(?:'?s)? (?:that (?:is|lies) )?(?:in )?between(?: them| the loops| the two| the spaces)?\)?)")
#: "The same again: tr in every tr, ...": what it is, told once more.
_SAME_AGAIN = when_used(r"(?P<lead>^\W*)(?P<said>(?:and |then )?(?:the |just the |exactly the )?same (?:thing |idea |exact thing )?(?:again|once more|as before|here)(?: now| here)?:)(?= *(?:\d|[a-z]{2,3} in\b))")
#: "2 tr 2 ch 2 tr in every corner": one group, said without signs.
_CORNER_BARE = when_used(
    r"(?P<and>,? ?\b(?:and|with) |, )(?P<group>(?P<n>\d) ?(?P<k>sc|hdc|dc|htr|tr|dtr) (?:\d ?ch|ch ?\d) (?P=n) ?(?P=k))(?= (?:in|into) (?:every|each|all)(?: of)?(?: the)?(?: \d)? corner)"
)
#: "8 puff with 1 ch after each one".
_AFTER_EACH = when_used(rf"(?P<n>\b\d{{1,2}}|\b{lexicon.NUMBER_WORDS}) (?P<k>[a-z]+(?: (?:sts?|stitches))?),? (?:with |and |having |making )+(?:a )?(?P<ch>1 ch|ch ?1|one ch(?:ain)?|2 ch|ch ?2|3 ch|ch ?3|ch(?:ain)?)(?: st)? after each(?: one| of them| puff| dc| tr| cluster)?(?=\s*(?:[.,;(]|$))")
#: "You're gonna", "we are going to": what is said before it is told.
_GONNA = when_used(r"(?P<lead>(?:^|[.,;:] ?|\b(?:and|then|so|now|okay|alright) )\s*)(?P<said>(?:(?:so|then|now|okay|ok|alright|and|also|just) )*(?:you|we|i)(?:'re| are|'m| am|'ll| will)?(?: also| just| now| then| all)? (?:gonna|going to|wanna|want to|need to|gotta)(?: just| also| then| simply)* )(?=(?:chain|ch|skip|sk|put|work|make|do|single|double|half|treble|sc|dc|hdc|tr|sl|slip|turn|repeat|join|crochet|go|have|increase|decrease)\b)")
_DID_IN = when_used(r"\b(?:do|did|repeat|work) (?:exactly |again )?(?:what|as|like|everything) (?:we|you|i) (?:did|worked|made)(?: back)? (?:in|on|for) (?P<row>(?:row|rnd|round) \d{1,2})")
#: "RND 2. 2nd color. ...": a new yarn.
_NTH_COLOUR = when_used(r"(?P<lead>^\W*)(?:(?:with|in|use|using|join) )?(?:the |your )?(?:1st|2nd|3rd|[4-9]th|first|second|third|fourth|fifth|sixth|background|main|contrast(?:ing)?) colou?r(?: again)?(?=\s*[.:,;])")
_CORNER_OF = when_used(r"(?P<lead>(?:^|[*:;,.(] ?|\b(?:a|and|the|work|make) ))(?P<said>(?:a |the )?corner (?:of|is|:) ?)(?=\([^()]{6,40}\) (?:in|into)\b)")
#: "Sc in first st, dc in next st, keep on sc, dc, sc, dc across": by turns.
_KEEP_ON = when_used(
    r"(?P<begun>\b(?P<a>sc|hdc|dc|htr|tr) in (?:the )?first (?:st|stitch|[a-z]{2,3}), (?:and )?(?P<b>sc|hdc|dc|htr|tr) in (?:the )?next(?: (?:st|stitch|[a-z]{2,3}))?)(?P<keep>,? (?:and )?(?:keep on|keep going|continue|carry on|go on|keep alternating|so on)(?: like that| this way| with| alternating)?,?:? ?(?P=a), (?P=b),? (?:(?P=a), (?P=b),? )?)(?=(?:across|around|to (?:the )?end))"
)
_TWO_IN_ONE = when_used(r"(?P<lead>(?:[,*(\[;] ?|\bthen |\band ))(?:2|two) (?:st(?:s|itches)? )?in (?:1|one)(?: st(?:itch)?)?(?=\s*(?:[*)\],;.]|$))")
_BACKMOST = when_used(r"\b(?P<side>back|front|rear)most (?P<loop>loops?|lps?)\b")
_TAKING = when_used(r"\b(?:taking|catching|picking up|using|going (?:in|into|through)|grabbing) (?:up )?(?:only |just )?(?:the )?(?P<side>back|front) (?:loops?|lps?|half|halves|strands?)(?: only)?(?=\s*(?:[.,;(]|$))")
_MIRRORED = when_used(r"(?P<said>(?:and |then |now )*(?:the )?(?:second|other|left|right) half (?:is |comes )?(?:mirrored|in reverse|reversed|the other way round|in mirror image):)")
#: "One plain single crochet": the usual one.
_PLAIN_ONE = when_used(r"(?P<one>\b(?:one|a|1|two|2) )(?P<plain>(?:plain|ordinary|regular|normal|simple|usual|basic|little) )(?=(?:single|double|half|treble|sc|hdc|dc|tr|htr)\b)")
#: "Which gives you 24, and join": the count, before the join.
_GIVES = when_used(r"(?P<lead>,?) (?:which|that|this) (?:gives|makes|brings|leaves|takes)(?: you| us)?(?: up)?(?: to)? (?:a total of )?(?P<n>\d{1,3})(?P<noun> (?:sts?|stitches|sc|h?dc|h?tr|dtr))?(?: in all| altogether| now)?(?=\s*(?:[.;]|$|,? (?:and )?(?:join|turn|then join|then turn|sl st|slip)))")
#: "Work in the spaces BETWEEN the dc's: ...": where a row without chains has its spaces.
_IN_GAPS = when_used(r"(?P<lead>(?:^|[.;:] ?)\s*)(?:now )?work(?:ing)?(?: now| only)? in(?:to)? (?:the )?(?:spaces|gaps|sps) between (?:the )?(?:dc|sts|stitches|tr|sc|hdc)(?:'?s)?(?: of (?:the )?last (?:rnd|round|row))?(?: this time| now)?[:.;](?= *(?:\d|\*|\(|ch\b))")
#: "That first chain right by your hook", "another one right after it": which needs no saying.
_RIGHT_BY = when_used(r"(?P<what>\b(?:ch(?:ain)?|st(?:itch)?|loop|one|together|dec|[a-z]+2tog) )(?:right |just |directly )?(?:by|next to|beside|closest to|after|behind) (?:your hook|the hook|it|that one|that)(?=\s*(?:[.,;]|$|and\b))")
#: "Skip that first chain and put a single crochet in the second chain": the second from the hook.
#: "Rounds 8 & 9: same as 6 & 7", "Rows 3-5: just like 2".
_SAME_NUMBERS = when_used(r"^(?P<lead>\W*)(?:(?:just|exactly|all) )?(?:(?:the )?same as|like|as|repeat) (?P<a>\d{1,2})(?: ?(?:&|and|-|\u2013|\+) ?(?P<b>\d{1,2}))?(?=\W*$)")
_JOIN_EACH = when_used(r"(?P<join>\b(?:join|sl st to join|close))(?P<each> (?:each|every)(?: one| round| rnd| time| row)?)(?=\s*(?:[.,;(]|$))")
_FOR_ONE = when_used(r"(?P<lead>(?:^|[.!;:] ?)\s*)(?:(?:this is |now )?for (?:one|each|every) (?:arm|leg|petal|point|leaf|finger|ear|corner|side|section|spike|ray):)(?= *(?:\d|[a-z]{2,3} in\b))")
_ADD_TO_RING = when_used(r"(?P<lead>(?:^|[.,;:] ?)\s*)add (?P<n>\d{1,2} (?:more )?(?:sc|hdc|dc|htr|tr)) to (?P<the>(?:the )?ring)\b")
_MANY_POINTS = when_used(r"\b(?P<in>in (?:the )?(?:next )?|skip |sk )(?P<n>[2-9]|1\d|two|three|four|five) points\b(?! of)")
_SKIP_FIRST = when_used(r"\b(?:skip|sk|miss) (?:that |the |your )?(?:very )?first ch(?:ain)?(?: from (?:the |your )?hook)?,?\s*(?:and |then )*(?P<work>(?:(?:put|work|make|do) )?(?:an? |1 |one )?(?:single crochet|half double crochet|sc|hdc) )(?P<in>in(?:to)? )(?:the |that )?(?:second|2nd)(?: ch(?:ain)?| one)?\b(?! of| ch)")
_EACH_BUT = when_used(r"(?P<each>\bin (?:every|each) (?:st|stitch|sc|hdc|dc|htr|tr)),? but (?=(?:only )?(?:in(?:to)?|through|under) (?:only )?the (?:back|front))")
#: "Fpdc round 1, bpdc round the next one": round the next.
_ROUND_ONE = when_used(r"\b(?P<k>[fb]p(?:sc|hdc|dc|tr)) (?:a?round) (?:1|one)(?=\s*[,;)*])")
#: "Hop over the first sc": skip it.
_HOP_OVER = when_used(r"\b(?P<how>hop|jump|step|leap|pass) over (?=(?:the )?(?:first|next|\d|one|two|three)\b)")
_NEXT_TOGETHER = when_used(r"\b(?P<do>crochet|take|work|make) (?:the )?(?P<n>[2-4]|two|three) next(?P<st> (?:sts|stitches|sc|hdc|dc))? together\b")
_ARE_THERE = when_used(r"\b(?P<now>now )?are there (?:now )?(?P<n>\d{1,3})(?= (?:sts|stitches|sc|hdc|dc|masks)\b)")
#: "ROUND 7 ... Ribbon holes. Ch 4": what the row is.
_ROW_NAMED = when_used(r"^(?P<lead>\W*)(?:(?:heel|toe|brim|cuff|crown|ribbing|edging|handles|straps|thumb|gusset|sole|instep|background|contrast|scallops)(?= *[.:] )|(?:this is |here comes |now for )?(?:the )?(?:pretty|fun|easy|tricky|boring|bumpy|lacy|fancy|fiddly|lovely|wavy|quiet|plain) (?:one|bit|part|round|row|rnd)(?= *[.!:]))|^(?P<lead2>\W*)(?:the )?(?:ribbon|eyelet|beading|drawstring|lace|mesh|button|cord|lacing)[- ](?:holes?|rows?|rounds?|rnds?|eyelets?|spaces)(?= *[.:])")
#: "Skip 2 dc altogether, counting the one at the foot of the chain".
_SKIP_IN_ALL = when_used(r"(?P<skip>\b(?:skip|sk|miss) (?:the )?(?:next )?(?:\d|one|two|three|four) (?:sts?|stitches|sc|hdc|dc|htr|tr|ch|chs|d\.c\.|s\.c\.|tr\.))(?P<all>,?\s+(?:altogether|in all|in total),? (?:counting|including) [^,;()]{3,44})(?=,)")
_FOR_STITCH = when_used(r"(?P<ch>\bch ?\d|\b\d ?ch\.?)\s?\((?P<for>for |to count for |serving as |in place of )(?=(?:1 |one |an? |the |first )*(?:sc|hdc|dc|htr|tr|dtr|d\.c|s\.c)\b)")
_TURN_CORNER = when_used(r"\bturn (?:the |that )?corner(?: of (?:the )?chain)?,? and (?:then )?(?:go|work|continue|come|carry on|keep going|crochet)(?: back)? (?P<along>(?:along|down|up|on) (?:the )?(?:other|opposite|second|bottom) side)")
#: "But through both loops and having dc in place of sc".
_BOTH_AND = when_used(r"\bbut (?P<both>(?:through|in|under|working in|working through) both (?:loops|lps)) and (?=(?:having|with|using|working|make|making)\b)")
_PLAIN_ALONG = when_used(r"(?P<lead>(?:^|[,.;:] ?)\s*)(?:just )?plain (?=(?:sc|hdc|dc|htr|tr)\b)")
#: "Fasten off first square only": of two alike.
_OFF_ONLY = when_used(r"(?P<off>\b(?:fasten|finish|bind|cast|tie) off)(?P<which> (?:on |for )?(?:the )?(?:first|second|third|last|one|each|both|front|back|left|right|\d(?:st|nd|rd|th)) (?:square|motif|piece|side|panel|mitt|sleeve|half|leg|ear|one|circle|granny|hexagon|slipper|sock|cup)(?: only)?| only (?:the )?(?:first|second|last|one) \w+)(?=\s*(?:[.,;]|$))")


def print_habits_evened(low: str) -> str:
    """The text with all that told in the usual words.

    >>> print_habits_evened("working only in the back loops of the tops of the sc's, dc in next 9 sts").split(",")[0].split()
    ['working', 'in', 'back', 'loops', 'only']
    >>> print_habits_evened("*ch 3, sc in next ch, repeat from 6 times more").split(", ")[-1]
    'repeat *    6 times more'
    """
    low = _LOOPS_SAID.sub(_loops, low) if "loop" in low or "lp" in low or "thread" in low or "strand" in low else low
    low = _as_spoken(_said_again(_said_of_the_way(low)))
    low = _NO_MARK.sub(lambda m: f"{m['rep']} *   ", low) if low.count("*") == 1 else low
    low = _WORK_ON.sub(_each_to_end, low)
    if _ON_CHAINS.search(low):
        low = _SKIP_CHAINS.sub(lambda m: f"{m['skip']} {m['n']} ch".ljust(len(m[0])) if len(m[0]) >= len(m["skip"]) + len(" 2 ch") else f"{m['skip']} {m['n']} ", low)
    low = _WHERE_SLIPPED.sub(lambda m: f"{m['where']}sl st made".ljust(len(m[0])), low) if "where" in low else low
    low = _END_OF_LAST.sub(lambda m: f"{m['to']} ".ljust(len(m[0])), low) if "end of" in low else low
    if _REP_THEN_STAR.search(low):
        low = _REP_THEN_WORK.sub(_once_more, _REP_THEN_STAR.sub(_once_more, low))
    low = _AT_THIS.sub(lambda m: " " * len(m[0]), low) if "at th" in low else low
    low = _STILL.sub(lambda m: f"{m['in']}same {m['place'].split()[-2]}".ljust(len(m[0])) if len(m["place"]) > len("same space") - 2 else m[0], low) if "still" in low else low
    low = _PULL_THROUGH.sub(lambda m: "in last yo".ljust(len(m[0])), low) if "last" in low or "final" in low else low
    low = _CLOSE_TOGETHER.sub(lambda m: f"{m['n'] or m['m']} {m['st'] or m['st2']} tog".ljust(len(m[0])), low) if " tog" in low else low
    low = _COUNTING.sub(lambda m: f" from {m['hook']}".ljust(len(m[0])), low) if "hook" in low or "needle" in low else low
    low = _IN_THE_AIR.sub(lambda m: m["ch"].ljust(len(m[0])), low) if " air" in low else low
    low = _GO_BEHIND.sub(_passing, low) if "behind" in low or "in back" in low or "in front" in low else low
    low = _JUST_MADE.sub(",", low) if "just made" in low else low
    low = _PAST_THESE.sub(r"\g<past>,", low)
    low = _SKIPPED_BEHIND.sub(r"\g<the>\g<skipped> \g<st>", low)
    low = _WORK_STOP.sub(r"\g<work>  ", low)
    low = _ON_TOP_OF.sub(lambda m: "in ".ljust(len(m[0])), low) if "on top" in low else low
    low = _WAS_DONE.sub(lambda m: m["lead"] + " " * len(m["did"]), low)
    low = _CENTER_OF.sub(lambda m: f"{m['into']}ring".ljust(len(m[0])), low) if "cent" in low or "middle" in low else low
    low = _LEAVING.sub(lambda m: f"{m['work']} = {m['n']} {m['st'] or 'sts'}".ljust(len(m[0])), low) if "leaving" in low else low
    return _OPPOSITE_OF.sub(lambda m: f"{m['on']}other side {m['ch']}".ljust(len(m[0])) if len(m["on"] + "other side " + m["ch"]) <= len(m[0]) else m[0], low) if "opposite" in low else low


def _said_of_the_way(low: str) -> str:
    """What is said of the way to where work goes on, and of stitches that are passed over or left."""
    if "corner" in low:
        low = _HOPS.sub(lambda m: f"{m['lead']}ss {m['to']} {m['where']}".ljust(len(m[0])), low)
    low = _SLIPS_AS.sub(lambda m: m["sl"] + " " * len(m["as"]), low) if "sl" in low or "ss" in low else low
    low = _BEHIND_AS.sub(lambda m: m["work"] + " " * len(m["as"]), low) if "work" in low else low
    low = _NTH_DOTTED.sub(lambda m: f"{m['as']}{m['row']} {m['n']}".ljust(len(m[0])), low)
    low = _OF_PART.sub(lambda m: f"{'skip' if len(m['how']) >= len('skip') else m['how']} {m['n']} {m['st']}".ljust(len(m[0])) if m["of"] or m["how"] not in ("skip", "sk", "miss") else m[0], low)
    low = _PASSING.sub(lambda m: m["work"] + " " * len(m["passing"]), low)
    low = _HALF.sub(lambda m: f"{m['lead']}working in {'back' if m['half'] in ('back', 'rear', 'far') else 'front'} loops only,".ljust(len(m[0])) if len(m[0]) > len(m["lead"]) + len("working in front loops only,") else m[0], low)
    low = _BOTH_HALVES.sub(lambda m: m["under"] + "both loops".ljust(len(m["both"])), low) if "both" in low else low
    low = _AND_AFTER_LAST.sub(lambda m: m["with"] + " " * len(m["last"]), low) if "last" in low else low
    low = _ONE_CHAIN.sub(lambda m: f"{m['in']}ch-{lexicon.number(m['n'])}{m['noun'] if len(m['noun']) > 1 else ' sp'}".ljust(len(m[0])), low) if "-chain" in low else low
    low = _SWINGS.sub(lambda m: f"working {m['along']}".ljust(len(m[0])), low) if " side" in low else low
    low = _OVER_PART.sub(lambda m: m["times"] + " " * len(m["over"]), low) if " the " in low or " your " in low else low
    low = _LEFT_FREE.sub(lambda m: " " * len(m[0]), low) if " lea" in low or " keep" in low else low
    low = _THAT_IS_TO_SAY.sub(lambda m: " " * len(m[0]), low) if "i" in low else low
    low = _FROM_EDGE.sub(lambda m: f"{m['skip']} first {m['n']} {m['st']}".ljust(len(m[0])), low) if " from " in low else low
    low = _CARRY_ON.sub(lambda m: f"rep{' ' * (len(m['on']) - 3)}{m['from']}", low) if "*" in low else low
    low = _ON_OTHERS.sub(lambda m: m["row"] + " " * len(m["but"]), low) if "work" in low else low
    return low


def _said_again(low: str) -> str:
    """What is said again of a row, of its loops, its colour and its count."""
    low = _IN_ALL_TURN.sub(lambda m: f" ({m['n']}), turn".ljust(len(m[0])), low) if "turn" in low else low
    low = _SLIPS_EACH.sub(lambda m: f"{m['lead']}sl st".ljust(len(m[0])) if len(m[0]) - len(m["lead"]) >= len("sl st") else m[0], low) if "sl" in low else low
    low = _NOT_TIGHT.sub(lambda m: " " * len(m[0]), low)
    low = _BETWEEN_LOOPS.sub(lambda m: m["in"] + " " * len(m["said"]), low) if "between" in low else low
    if "same" in low:
        low = _SAME_AGAIN.sub(lambda m: m["lead"] + " " * len(m["said"]), low)
    if "corner" in low:
        low = _CORNER_BARE.sub(lambda m: f"{',' if ',' in m['and'] else ''} ({m['group']})".ljust(len(m[0])) if len(m["and"]) > len(", ") + 1 else m[0], low)
        low = _CORNER_OF.sub(lambda m: m["lead"] + " " * len(m["said"]), low)
    low = _AFTER_EACH.sub(lambda m: f"({m['k']}, {m['ch']}) {m['n']} times".ljust(len(m[0])) if len(f"({m['k']}, {m['ch']}) {m['n']} times") <= len(m[0]) else m[0], low) if "after each" in low else low
    low = _GONNA.sub(lambda m: m["lead"] + " " * len(m["said"]), low)
    low = _DID_IN.sub(lambda m: f"as {m['row']}".ljust(len(m[0])), low) if " did" in low or "do " in low else low
    if "col" in low:
        low = _NTH_COLOUR.sub(lambda m: m["lead"] + ("new color" if len(m[0]) - len(m["lead"]) >= len("new color") else "").ljust(len(m[0]) - len(m["lead"])), low)
    if "side" in low or "half" in low:
        low = _MIRRORED.sub(lambda m: " " * len(m[0]), low)
    low = _KEEP_ON.sub(lambda m: f"*{m['a']} in next st, {m['b']} in next st, rep from * ".ljust(len(m[0])) if len(m[0]) >= len(f"*{m['a']} in next st, {m['b']} in next st, rep from * ") else m[0], low)
    low = _TWO_IN_ONE.sub(lambda m: m["lead"] + "inc".ljust(len(m[0]) - len(m["lead"])), low) if "in 1" in low or "in one" in low else low
    low = _BACKMOST.sub(lambda m: f"{'front' if m['side'] == 'front' else 'back'} {m['loop']}".ljust(len(m[0])), low)
    low = _TAKING.sub(lambda m: f"in {m['side']} loop".ljust(len(m[0])), low)
    low = _PLAIN_ONE.sub(lambda m: m["one"] + " " * len(m["plain"]), low)
    low = _GIVES.sub(lambda m: f" ({m['n']}{m['noun'] or ''})".ljust(len(m[0])), low) if " give" in low or " make" in low or " bring" in low or " leave" in low or " take" in low else low
    return low


def _as_spoken(low: str) -> str:
    """Words of those who speak, and of those who write in English as in their own language."""
    low = _IN_GAPS.sub(lambda m: m["lead"] + " " * (len(m[0]) - len(m["lead"])), low) if "between" in low else low
    low = _RIGHT_BY.sub(lambda m: m["what"] + " " * (len(m[0]) - len(m["what"])), low)
    low = _SKIP_FIRST.sub(lambda m: f"{m['work']}{m['in']}2nd ch from hook".ljust(len(m[0])) if len(m[0]) >= len(f"{m['work']}{m['in']}2nd ch from hook") else m[0], low) if "first" in low else low
    low = _EACH_BUT.sub(lambda m: m["each"].ljust(len(m[0])), low) if " but " in low else low
    low = _JOIN_EACH.sub(lambda m: m["join"] + " " * len(m["each"]), low) if "each" in low or "every" in low else low
    low = _FOR_ONE.sub(lambda m: m["lead"].ljust(len(m[0])), low) if "for " in low else low
    low = _ADD_TO_RING.sub(lambda m: f"{m['lead']}{m['n']} in {m['the']}".ljust(len(m[0])), low) if "add " in low else low
    low = _MANY_POINTS.sub(lambda m: f"{m['in']}{m['n']} sts".ljust(len(m[0])), low) if "points" in low else low
    low = _SAME_NUMBERS.sub(_rows_by_numbers, low)
    low = _ROUND_ONE.sub(lambda m: f"{m['k']} 1".ljust(len(m[0])), low)
    low = _HOP_OVER.sub(lambda m: "skip".ljust(len(m[0])), low) if " over " in low else low
    low = _NEXT_TOGETHER.sub(lambda m: ("dec over next 2 sts" if lexicon.number(m["n"]) == 2 and len(m[0]) >= len("dec over next 2 sts") else f"{m['do']} next {m['n']}{m['st'] or ''} tog").ljust(len(m[0])), low) if "together" in low else low
    low = _ARE_THERE.sub(lambda m: f"{'now ' if m['now'] else ''}there are {m['n']}".ljust(len(m[0])), low) if "are there" in low else low
    low = _ROW_NAMED.sub(lambda m: (m["lead"] if m["lead"] is not None else m["lead2"]).ljust(len(m[0])), low)
    low = _SKIP_IN_ALL.sub(_skipped_in_all, low)
    low = _FOR_STITCH.sub(lambda m: f"{m['ch']} ({'= '.ljust(len(m['for']))}" if len(m[0]) == len(f"{m['ch']} (") + len(m["for"]) else m[0], low) if "(" in low else low
    low = _TURN_CORNER.sub(lambda m: f"working {m['along']}".ljust(len(m[0])), low) if " side" in low else low
    low = _BOTH_AND.sub(lambda m: f"{m['both']}, ".ljust(len(m[0])), low) if "but " in low else low
    low = _PLAIN_ALONG.sub(lambda m: m["lead"].ljust(len(m[0])), low) if "plain " in low else low
    low = _OFF_ONLY.sub(lambda m: m["off"] + " " * len(m["which"]), low) if " off " in low else low
    return low


def _passing(found: re.Match[str]) -> str:
    told = f", but working {'in front' if found['side'] == 'front' else 'behind'}"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _rows_by_numbers(found: re.Match[str]) -> str:
    """Rows told by bare numbers, where there is room to say that they are rows."""
    first, last = int(found["a"]), int(found["b"] or found["a"])
    told = f"{found['lead']}rep rows {first}-{last}" if last == first + 1 else f"{found['lead']}as row {first}"
    return told.ljust(len(found[0])) if last - first in (0, 1) and len(told) <= len(found[0]) else found[0]


def _skipped_in_all(found: re.Match[str]) -> str:
    """So many stitches skipped, the one at the foot of the chain among them where that is said."""
    verb, _, behind = found["skip"].partition(" ")
    told = f"{verb} first {behind.removeprefix('next ')}" if "foot" in found["all"] or "base" in found["all"] else found["skip"]
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _once_more(found: re.Match[str]) -> str:
    return "rep * once".ljust(len(found[0]))


def _loops(found: re.Match[str]) -> str:
    side = {"rear": "back", "far": "back", "near": "front"}.get(found["side"], found["side"])
    told = f"working in {side} loops only"
    return told.ljust(len(found[0])) if len(told) <= len(found[0]) else found[0]


def _each_to_end(found: re.Match[str]) -> str:
    """In each stitch to the end the one that the row was last told to be of, where it is one and fits."""
    said = [m["st"] for m in _LAST_STITCH.finditer(found.string, 0, found.start())]
    told = f"{said[-1]} to end" if said and len(set(said)) == 1 else ""
    return told.ljust(len(found[0])) if told and len(told) <= len(found[0]) else found[0]
