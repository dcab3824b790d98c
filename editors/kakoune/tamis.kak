# Recipe manuscripts in Kakoune: what is recognised by its line is coloured here; the rest by the server, through kak-lsp.

hook global BufCreate .*[.]tamis %{ set-option buffer filetype tamis }

hook global WinSetOption filetype=tamis %{
    require-module tamis
    add-highlighter window/tamis ref tamis
    set-option window comment_line '//'
    set-option window indentwidth 2
    hook window InsertChar \n -group tamis-lists tamis-next-item
    hook -once -always window WinSetOption filetype=.* %{
        remove-highlighter window/tamis
        remove-hooks window tamis-lists
    }
}

# For kak-lsp 16 or later; before it, the same stands in kak-lsp.toml under [language_server.tamis]. Without kak-lsp there is no `lsp_servers`.
declare-option -docstring "how kak-lsp is to start the server of recipe manuscripts" str tamis_server %{
    [tamis]
    command = "tamis"
    args = ["lsp"]
    root_globs = ["tamis.toml", ".git"]
}
hook -group lsp-filetype-tamis global BufSetOption filetype=tamis %{
    try %{ set-option buffer lsp_servers %opt{tamis_server} }
}

provide-module tamis %§

add-highlighter shared/tamis regions
add-highlighter shared/tamis/text default-region group
add-highlighter shared/tamis/remark region '(^|(?<=[ \t]))//' $ fill comment
add-highlighter shared/tamis/query region '(^|(?<=[ \t]))[?][?]' $ fill documentation

# BEGIN words, made by editors/generate.mjs
add-highlighter shared/tamis/text/title regex '(?i)^(recipe):([^\n]*)' 1:keyword 2:title
add-highlighter shared/tamis/text/header regex '(?i)^(allergens|keywords|cuisine|author|course|serves|status|photo|yield|diet|time):' 1:attribute
add-highlighter shared/tamis/text/lists regex '(?i)^(ingredients|equipment|tests)([ \t]+[^.!?;\[\]="()\n]{1,80}|[ \t]*\([^.!?;\[\]="()\n]{1,80}\))?[ \t]*:[ \t]*$' 1:header 2:meta
add-highlighter shared/tamis/text/method regex '(?i)^(instructions|preparation|directions|method|steps)([ \t]+[^.!?;\[\]="()\n]{1,80}|[ \t]*\([^.!?;\[\]="()\n]{1,80}\))?[ \t]*:[ \t]*$' 1:header 2:meta
add-highlighter shared/tamis/text/prose regex '(?i)^(variations|sidebar|storage|notes|make[- ]ahead):' 1:header
add-highlighter shared/tamis/text/measure regex '(?i)(?<![\w''’])(\d[\d.,/½⅓⅔¼¾⅛⅜⅝⅞]*|[½⅓⅔¼¾⅛⅜⅝⅞])(?:[ \t-]*(degrees[ \t]+centigrade|degrees[ \t]+fahrenheit|degree[ \t]+fahrenheit|degrees[ \t]+celsius|degree[ \t]+celsius|tablespoonfuls|dessertspoons|tablespoonful|dessertspoon|fluid[ \t]+ounces|teaspoonfuls|centiliters|centilitres|centimeters|centimetres|fluid[ \t]+ounce|kilogrammes|milliliters|millilitres|millimeters|millimetres|tablespoons|teaspoonful|centigrade|centiliter|centilitre|centimeter|centimetre|deciliters|decilitres|fahrenheit|kilogramme|milligrams|milliliter|millilitre|millimeter|millimetre|sprinkling|tablespoon|deciliter|decilitre|degrees[ \t]+c|degrees[ \t]+f|envelopes|grindings|kilograms|milligram|spoonfuls|teaspoons|drizzles|envelope|gratings|grinding|handfuls|handsful|kilogram|packages|portions|servings|smidgens|splashes|spoonful|sprinkle|squeezes|teaspoon|batches|bottles|bunches|cartons|celsius|cupfuls|degrees|dollops|drizzle|fillets|gallons|glasses|grammes|grating|handful|jiggers|minutes|package|packets|pinches|portion|punnets|rashers|recipes|sachets|seconds|serving|smidgen|squeeze|squirts|blocks|bottle|carton|chunks|cloves|cupful|dashes|degree|dollop|dstspn|fillet|fl[ \t]+ozs|fl\.[ \t]+oz|gallon|gramme|grinds|inches|jigger|leaves|liters|litres|loaves|meters|metres|minute|months|ounces|packet|pieces|pounds|punnet|quarts|rasher|recipe|rounds|sachet|scoops|second|sheets|slices|splash|sprigs|squirt|stalks|sticks|strips|thumbs|wedges|balls|batch|blobs|block|bowls|boxes|bulbs|bunch|chunk|clove|cubes|deg[ \t]+c|deg[ \t]+f|dozen|drops|fl[ \t]+oz|gills|glass|glugs|grams|grind|heads|hours|kilos|knobs|liter|litre|meter|metre|month|ounce|packs|piece|pinch|pints|pound|quart|round|scoop|sheet|slice|sprig|stalk|stick|strip|tblsp|tbsps|thumb|tubes|wedge|weeks|bags|ball|bars|blob|bowl|bulb|cans|cube|cups|dash|days|drop|ears|feet|floz|foot|gill|glug|gram|head|hour|inch|jars|kilo|knob|leaf|loaf|mins|mugs|pack|pats|pint|pkgs|ribs|secs|tbsp|tins|tsps|tube|tubs|week|bag|bar|box|can|cms|cup|day|deg|doz|dsp|ear|gal|gms|hrs|jar|kgs|lbs|ltr|min|mug|ozs|pat|pkg|pts|qts|rib|sec|tad|tbl|tbs|tin|tsp|tub|º[ \t]+c|º[ \t]+f|cc|cl|cm|dl|ft|gm|gr|hr|kg|lb|lt|mg|ml|mm|oz|pt|qt|ºc|ºf|g|h|l|º|°[ \t]*[fc]?)(?![\w''’]))?' 1:value 2:type
# END words
add-highlighter shared/tamis/text/step regex '(?i)^[ \t]*((step[ \t]+)?\d{1,3}[.):])(?!\d)' 1:bullet
add-highlighter shared/tamis/text/item regex '^[-*•·–][ \t]' 0:bullet
add-highlighter shared/tamis/text/result regex '(=>)([^\n]*)' 1:operator 2:value
add-highlighter shared/tamis/text/mention regex '\[[^\[\]\n]*\]' 0:variable
add-highlighter shared/tamis/text/reference regex '\[\[[^\[\]\n]*\]\]' 0:link
add-highlighter shared/tamis/text/stet regex '(?i)^[ \t]*(stet)[ \t]+([^\s:]+)(:[^\n]*)?' 1:keyword 2:attribute 3:comment

# Enter starts the next item with the mark of the one above; below an empty one the list ends.
define-command -hidden tamis-next-item %{ evaluate-commands -draft -itersel %{
    try %{ execute-keys -draft k x <a-k> '^[-*•·–][ \t]+\S' <ret> s '^[-*•·–][ \t]+' <ret> y j gh P }
    try %{ execute-keys -draft k x <a-k> '^[-*•·–][ \t]*$' <ret> d }
} }
§
