" Recipe manuscripts: colours, for Vim and for Neovim without a parser.

if exists('b:current_syntax')
  finish
endif

syntax sync fromstart
syntax case match
syntax spell toplevel

" BEGIN words, made by editors/generate.mjs
let s:title = '\%(recipe\)'
let s:header = '\%(allergens\|keywords\|cuisine\|author\|course\|serves\|status\|photo\|yield\|diet\|time\)'
let s:lists = '\%(ingredients\|equipment\|tests\)'
let s:method = '\%(instructions\|preparation\|directions\|method\|steps\)'
let s:prose = '\%(variations\|sidebar\|storage\|notes\)'
let s:unit = '\%(degrees\s\+centigrade\|degrees\s\+fahrenheit\|degree\s\+fahrenheit\|degrees\s\+celsius\|degree\s\+celsius\|tablespoonfuls\|dessertspoons\|tablespoonful\|dessertspoon\|fluid\s\+ounces\|teaspoonfuls\|centiliters\|centilitres\|centimeters\|centimetres\|fluid\s\+ounce\|kilogrammes\|milliliters\|millilitres\|millimeters\|millimetres\|tablespoons\|teaspoonful\|centigrade\|centiliter\|centilitre\|centimeter\|centimetre\|deciliters\|decilitres\|fahrenheit\|kilogramme\|milligrams\|milliliter\|millilitre\|millimeter\|millimetre\|sprinkling\|tablespoon\|deciliter\|decilitre\|degrees\s\+c\|degrees\s\+f\|envelopes\|grindings\|kilograms\|milligram\|spoonfuls\|teaspoons\|drizzles\|envelope\|gratings\|grinding\|handfuls\|handsful\|kilogram\|packages\|portions\|servings\|smidgens\|splashes\|spoonful\|sprinkle\|squeezes\|teaspoon\|batches\|bottles\|bunches\|cartons\|celsius\|cupfuls\|degrees\|dollops\|drizzle\|fillets\|gallons\|glasses\|grammes\|grating\|handful\|jiggers\|minutes\|package\|packets\|pinches\|portion\|punnets\|rashers\|recipes\|sachets\|seconds\|serving\|smidgen\|squeeze\|squirts\|blocks\|bottle\|carton\|chunks\|cloves\|cupful\|dashes\|degree\|dollop\|dstspn\|fillet\|fl\s\+ozs\|fl\.\s\+oz\|gallon\|gramme\|grinds\|inches\|jigger\|leaves\|liters\|litres\|loaves\|meters\|metres\|minute\|months\|ounces\|packet\|pieces\|pounds\|punnet\|quarts\|rasher\|recipe\|rounds\|sachet\|scoops\|second\|sheets\|slices\|splash\|sprigs\|squirt\|stalks\|sticks\|strips\|thumbs\|wedges\|balls\|batch\|blobs\|block\|bowls\|boxes\|bulbs\|bunch\|chunk\|clove\|cubes\|deg\s\+c\|deg\s\+f\|dozen\|drops\|fl\s\+oz\|gills\|glass\|glugs\|grams\|grind\|heads\|hours\|kilos\|knobs\|liter\|litre\|meter\|metre\|month\|ounce\|packs\|piece\|pinch\|pints\|pound\|quart\|round\|scoop\|sheet\|slice\|sprig\|stalk\|stick\|strip\|tblsp\|tbsps\|thumb\|tubes\|wedge\|weeks\|bags\|ball\|bars\|blob\|bowl\|bulb\|cans\|cube\|cups\|dash\|days\|drop\|ears\|feet\|floz\|foot\|gill\|glug\|gram\|head\|hour\|inch\|jars\|kilo\|knob\|leaf\|loaf\|mins\|mugs\|pack\|pats\|pint\|pkgs\|ribs\|secs\|tbsp\|tins\|tsps\|tube\|tubs\|week\|bag\|bar\|box\|can\|cms\|cup\|day\|deg\|doz\|dsp\|ear\|gal\|gms\|hrs\|jar\|kgs\|lbs\|ltr\|min\|mug\|ozs\|pat\|pkg\|pts\|qts\|rib\|sec\|tad\|tbl\|tbs\|tin\|tsp\|tub\|º\s\+c\|º\s\+f\|cc\|cl\|cm\|dl\|ft\|gm\|gr\|hr\|kg\|lb\|lt\|mg\|ml\|mm\|oz\|pt\|qt\|ºc\|ºf\|g\|h\|l\|º\)'
let s:behind = '\%(tablespoonfuls\|dessertspoons\|tablespoonful\|dessertspoon\|fluid\s\+ounces\|teaspoonfuls\|centiliters\|centilitres\|centimeters\|centimetres\|fluid\s\+ounce\|kilogrammes\|milliliters\|millilitres\|millimeters\|millimetres\|tablespoons\|teaspoonful\|centiliter\|centilitre\|centimeter\|centimetre\|deciliters\|decilitres\|kilogramme\|milligrams\|milliliter\|millilitre\|millimeter\|millimetre\|sprinkling\|tablespoon\|deciliter\|decilitre\|envelopes\|grindings\|kilograms\|milligram\|spoonfuls\|teaspoons\|drizzles\|envelope\|gratings\|grinding\|handfuls\|handsful\|kilogram\|packages\|smidgens\|splashes\|spoonful\|sprinkle\|squeezes\|teaspoon\|batches\|bottles\|bunches\|cartons\|cupfuls\|dollops\|drizzle\|fillets\|gallons\|grammes\|grating\|handful\|jiggers\|minutes\|package\|packets\|pinches\|punnets\|rashers\|recipes\|sachets\|seconds\|smidgen\|squeeze\|squirts\|bottle\|carton\|cloves\|cupful\|dashes\|dollop\|dstspn\|fillet\|fl\s\+ozs\|fl\.\s\+oz\|gallon\|gramme\|grinds\|inches\|jigger\|leaves\|liters\|litres\|meters\|metres\|minute\|months\|ounces\|packet\|pounds\|punnet\|quarts\|rasher\|recipe\|sachet\|scoops\|second\|slices\|splash\|sprigs\|squirt\|stalks\|sticks\|strips\|thumbs\|batch\|blobs\|bunch\|clove\|dozen\|drops\|fl\s\+oz\|gills\|glugs\|grams\|grind\|heads\|hours\|kilos\|knobs\|liter\|litre\|meter\|metre\|month\|ounce\|packs\|pinch\|pints\|pound\|quart\|scoop\|slice\|sprig\|stalk\|stick\|strip\|tblsp\|tbsps\|thumb\|weeks\|blob\|cans\|cups\|dash\|days\|drop\|feet\|floz\|foot\|gill\|glug\|gram\|head\|hour\|inch\|jars\|kilo\|knob\|leaf\|mins\|mugs\|pack\|pats\|pint\|pkgs\|ribs\|secs\|tbsp\|tins\|tsps\|week\|can\|cms\|cup\|day\|doz\|dsp\|gal\|gms\|hrs\|jar\|kgs\|lbs\|ltr\|min\|mug\|ozs\|pat\|pkg\|pts\|qts\|rib\|sec\|tad\|tbl\|tbs\|tin\|tsp\|cc\|cl\|cm\|dl\|ft\|gm\|gr\|hr\|kg\|lb\|lt\|mg\|ml\|mm\|oz\|pt\|qt\|g\|h\|l\)'
let s:cased = '\%(C\|F\|T\|c\|m\|s\|t\)'
let s:signs = '\%("\|″\|℃\)'
let s:number = '\%(seventeen\|eighteen\|fourteen\|nineteen\|thirteen\|fifteen\|quarter\|seventy\|sixteen\|couple\|eighty\|eleven\|ninety\|thirty\|twelve\|twenty\|eight\|fifty\|forty\|seven\|sixty\|third\|three\|five\|four\|half\|nine\|one\|six\|ten\|two\|an\|a\)'
let s:hedge = '\%(approximately\|generous\|exactly\|heaping\|roughly\|rounded\|almost\|approx\|around\|heaped\|nearly\|about\|level\|scant\|good\)'
let s:size = '\%(approximately\|generous\|standard\|exactly\|heaping\|roughly\|rounded\|almost\|approx\|around\|heaped\|medium\|nearly\|about\|large\|level\|scant\|small\|thick\|full\|good\|tall\|thin\|big\|fat\)'
let s:between = '\%(approximately\|generous\|standard\|degrees\|drained\|exactly\|heaping\|roughly\|rounded\|almost\|approx\|around\|heaped\|medium\|nearly\|about\|fluid\|large\|level\|scant\|small\|thick\|total\|each\|full\|good\|mark\|plus\|tall\|thin\|all\|and\|big\|fan\|fat\|gas\|net\|by\|fl\|in\|of\|or\|to\|x\)'
let s:ofsize = '\%(thickness\|diameter\|lengths\|skillet\|across\|chunks\|cutter\|length\|pieces\|rounds\|slices\|square\|strips\|apart\|chunk\|cubes\|piece\|round\|slice\|strip\|thick\|width\|cake\|cube\|deep\|dice\|dish\|high\|loaf\|long\|ring\|tall\|wide\|pan\|tin\)'
" END words

let s:fraction = '½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒'
let s:gap = '[ \t\u00a0\u2009\u202f]'
" What may not stand before a number or behind a unit.
let s:starts = '[[:alpha:]0-9''’]\@1<!'
let s:ends = '[[:alpha:]0-9''’]\@!'
let s:figure = '\%(\d\+\%(' . s:gap . '\+\|-\|' . s:gap . '\+\%(and\|&\)' . s:gap . '\+\)\d\+[/⁄]\d\+'
      \ . '\|\d\+\%(' . s:gap . '*\|-\|' . s:gap . '\+and' . s:gap . '\+\)[' . s:fraction . ']'
      \ . '\|\d\+[/⁄]\d\+\|\d\{1,3}\%(,\d\{3}\)\+\%([.,]\d\+\)*\|\d\+\%([.,]\d\+\)*\|\.\d\+\|[' . s:fraction . ']\)'
let s:range = s:figure . '\%(\%(-\?' . s:gap . '*[-‐‑‒–—]' . s:gap . '*\|-\?' . s:gap . '\+\%(to\|or\)' . s:gap . '\+\)' . s:figure . '\)\?'
let s:wordnumber = s:number . '\%(\%(-\|' . s:gap . '\+\)\%(of\|' . s:number . '\)\)*'
      \ . '\%(' . s:gap . '\+\%(to\|or\|and\)' . s:gap . '\+' . s:number . '\%(' . s:gap . '\+\%(a\|an\|of\)\)*\)\?'
let s:inwords = '\%(' . s:gap . '\+\|-\)\%(' . s:size . s:gap . '\+\)\?\%(second' . s:ends . '\)\@!' . s:behind . s:ends
let s:words = '\c' . s:unit . s:ends
let s:remark = '\%(^\|[ \t]\@1<=\)'
let s:headingend = '\%(\s\+[^.!?;[\]="()]\{1,80}\|\s*([^.!?;[\]="()]\{1,80})\)\?\s*:\s*\%($\|//\|??\)'
let s:section = '\%(' . s:title . ':\|' . s:prose . ':\|make[- ]\s*ahead:\|' . s:lists . s:headingend . '\|' . s:method . s:headingend . '\)'

function! s:match(group, options, pattern) abort
  execute 'syntax match' a:group a:options '~' . escape(a:pattern, '~') . '~'
endfunction

" Remarks
call s:match('tamisComment', 'contains=@Spell containedin=ALLBUT,tamisComment,tamisReason,tamisQuery', s:remark . '//.*$')
call s:match('tamisQuery', 'contains=@Spell containedin=ALLBUT,tamisComment,tamisReason', s:remark . '??.*$')
call s:match('tamisQuery', 'containedin=ALLBUT,tamisComment,tamisReason,tamisQuery', '\c\[' . s:gap . '*\%(au\|ed\):[^]]*\]\?')
call s:match('tamisQuery', 'containedin=ALLBUT,tamisComment,tamisReason,tamisQuery', '\C' . s:starts . 'TK' . s:ends)
call s:match('tamisStet', 'nextgroup=tamisCheck skipwhite', '\c^\s*stet\ze\s\+\a')
call s:match('tamisCheck', 'contained nextgroup=tamisReason', '[^[:space:]:]\+')
call s:match('tamisReason', 'contained contains=@Spell,tamisComment', ':.*$')
call s:match('tamisEscape', 'containedin=tamisMention', '\\[][=/?\\]')
call s:match('tamisAddress', '', '\a\+://[^][:space:][)]*')

" Brackets
" One that holds amounts only restates what stands before it.
let s:amount = s:gap . '*\%(' . s:hedge . s:gap . '\+\)\?' . s:range . '\%(' . s:gap . '*[x×]' . s:gap . '*' . s:range . '\)*' . s:gap . '*-\?\%([°º˚]\?[FC]' . s:ends . '\|°\|in' . s:ends . '\|' . s:unit . s:ends . '\)'
call s:match('tamisPlain', 'contains=@tamisMeasures', '\c\[' . s:amount . '\%(' . s:gap . '*[,;/]' . s:amount . '\)\{0,2}' . s:gap . '*\]')
syntax region tamisMention matchgroup=tamisBracket start=/\[\[\@!/ end=/\]/ end=/\ze\[/ end=/\n\ze\%(\s*$\|\S\)/ contains=tamisEscape,@tamisMeasures,@Spell
syntax region tamisReference matchgroup=tamisBracket start=/\[\[/ end=/\]\]\?/ oneline contains=@Spell

" Measures: a unit needs a number before it
syntax cluster tamisMeasures contains=tamisNumber,tamisNoMeasure,tamisGas,tamisHedge
call s:match('tamisHedge', '', '\c' . s:starts . '\%(' . s:hedge . '\|up' . s:gap . '\+to\|at' . s:gap . '\+\%(least\|most\)\)\ze' . s:gap . '\+\%([0-9.' . s:fraction . ']\|' . s:wordnumber . s:inwords . '\)')
call s:match('tamisNumber', 'nextgroup=tamisUnit,tamisSizeOfUnit,tamisPack skipwhite', '\c' . s:starts . s:range)
call s:match('tamisNumber', 'nextgroup=tamisUnit,tamisSizeOfUnit,tamisPack skipwhite', '\c' . s:starts . s:range . s:gap . '\+\%(to\|or\)\ze' . s:gap . '*$')
call s:match('tamisNumber', 'nextgroup=tamisUnit,tamisSizeOfUnit skipwhite', '\c' . s:starts . s:wordnumber . '\ze' . s:inwords)
call s:match('tamisNoMeasure', '', s:starts . '\%(\d\{4}-\d\d-\d\d\|\d\{1,2}:\d\d\|\d*\%(1st\|2nd\|3rd\|[04-9]th\|1[1-3]th\)\)')
call s:match('tamisUnit', 'contained', '[-‐‑]\?' . s:gap . '*' . s:words)
call s:match('tamisUnit', 'contained', '\C[-‐‑]\?' . s:cased . s:ends)
call s:match('tamisUnit', 'contained', '\%(' . s:signs . '\|\c[°º˚]\%(\s*[FC]' . s:ends . '\)\?\)')
call s:match('tamisUnit', 'contained', '\c[-‐‑]in' . s:ends)
call s:match('tamisUnit', 'contained', '\cin' . s:ends . '\ze\.\?' . s:gap . '*\%($\|[().,;:/\]x×]\|' . s:ofsize . s:ends . '\)')
call s:match('tamisSizeOfUnit', 'contained contains=tamisHedgeOfUnit nextgroup=tamisUnit skipwhite', '\c' . s:size . '\ze' . s:gap . '\+' . s:unit . s:ends)
call s:match('tamisHedgeOfUnit', 'contained', '\c' . s:hedge)
call s:match('tamisPack', 'contained contains=@tamisMeasures nextgroup=tamisUnit skipwhite', '\c(' . s:gap . '*\%(about' . s:gap . '\+\)\?[0-9.' . s:fraction . '][^()]*)\ze' . s:gap . '*\%(' . s:unit . '\)' . s:ends)
call s:match('tamisGas', 'nextgroup=tamisNumber skipwhite', '\c' . s:starts . 'gas\%(' . s:gap . '\+mark\)\?\ze' . s:gap . '\+[0-9' . s:fraction . ']')

syntax cluster tamisInline contains=tamisEscape,tamisAddress,tamisPlain,tamisMention,tamisReference,tamisStet,@tamisMeasures,@Spell

" Lines. A label inside a paragraph is prose.
execute 'syntax region tamisParagraph start=~^\%(//\|??\|stet\s\)\@!\ze\S~ end=~\n\ze\s*$~ end=~\c\n\ze' . s:section . '~ keepend contains=@tamisInline'
call s:match('tamisLabel', '', '\c^\%ufeff\?' . s:title . '\ze:')
call s:match('tamisTitle', 'contains=tamisReference,@Spell', '\c\%(^\%ufeff\?' . s:title . ':\)\@<=.*$')
call s:match('tamisHeader', '', '\c^' . s:header . '\ze:')

" Sections, up to the next one
execute 'syntax region tamisList start=~\c^\ze' . s:lists . s:headingend . '~ end=~\c\n\ze' . s:section . '~ keepend contains=tamisSection,tamisGroup,tamisBullet,@tamisInline'
execute 'syntax region tamisMethod start=~\c^\ze' . s:method . s:headingend . '~ end=~\c\n\ze' . s:section . '~ keepend contains=tamisSection,tamisGroup,tamisBullet,tamisStep,tamisArrow,@tamisInline'
execute 'syntax region tamisProse start=~\c^\ze\%(' . s:prose . '\|make[- ]\s*ahead\):~ end=~\c\n\ze' . s:section . '~ keepend contains=tamisSection,tamisGroup,@tamisInline'
call s:match('tamisGroup', 'contained', '^\a[^.!?;[\]="]\{0,88}\ze:\s*\%($\|//\|??\)')
call s:match('tamisGroup', 'contained', '\c^\%(for\|to\)\%(\s\+[^[:space:]0-9.,:;!?()/[\]="]\+\)\{1,5}\s*$')
call s:match('tamisSection', 'contained nextgroup=tamisGroupOfSection', '\c^\%(' . s:lists . '\|' . s:method . '\)\ze' . s:headingend)
call s:match('tamisSection', 'contained', '\c^\%(' . s:prose . '\|make[- ]\s*ahead\)\ze:')
call s:match('tamisGroupOfSection', 'contained', '[^:]\+\ze:')
call s:match('tamisBullet', 'contained', '^[-*•·–—▪●○☐◦■□]\ze\%(\s\|$\)')
call s:match('tamisStep', 'contained', '\c^\s*\%(step\s\+\)\?\d\{1,3}\s*[.):]\%(\d\)\@!')
syntax region tamisArrow matchgroup=tamisOperator start=/=>/ end=/$/ oneline contained contains=tamisMention,tamisReference,@tamisMeasures,@Spell

highlight default link tamisLabel Keyword
highlight default link tamisTitle Title
highlight default link tamisHeader Identifier
highlight default link tamisSection Statement
highlight default link tamisGroup PreProc
highlight default link tamisGroupOfSection PreProc
highlight default link tamisBullet Special
highlight default link tamisStep Special
highlight default link tamisNumber Number
highlight default link tamisUnit Type
highlight default link tamisGas Type
highlight default link tamisHedge StorageClass
highlight default link tamisHedgeOfUnit StorageClass
highlight default link tamisBracket Delimiter
highlight default link tamisMention Identifier
highlight default link tamisReference Underlined
highlight default link tamisOperator Operator
highlight default link tamisArrow Constant
highlight default link tamisComment Comment
highlight default link tamisQuery Todo
highlight default link tamisStet PreProc
highlight default link tamisCheck Label
highlight default link tamisReason Comment
highlight default link tamisEscape SpecialChar

let b:current_syntax = 'tamis'
