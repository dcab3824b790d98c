# A desk for an editor that is tried: a home of its own, the program on the PATH, and what to work on. Sourced with `program` set; sets
# and exports HOME, PATH, SAMPLE, POST, OTHER (Markdown that is nothing to us), and LEFT, the file into which the program writes the code
# that it has ended with.

desk=$(mktemp -d)
trap 'rm -rf "$desk"' EXIT
mkdir "$desk/bin" "$desk/book"
export HOME=$desk PATH=$desk/bin:$PATH LEFT=$desk/left
unset XDG_CONFIG_HOME XDG_DATA_HOME XDG_STATE_HOME XDG_CACHE_HOME
cat >"$desk/bin/tamis" <<END
#!/bin/sh
"$program" "\$@"
echo \$? >"$LEFT.part"
mv "$LEFT.part" "$LEFT"
END
chmod +x "$desk/bin/tamis"
# The walnuts of this sample go into no step (samples/mistakes/EXPECTED.tsv).
export SAMPLE=$desk/book/carrot-tea-bread.tamis
cp samples/mistakes/carrot-tea-bread.tamis "$SAMPLE"
# In line 8 the plums, which go into no step.
export POST=$desk/book/plums.md OTHER=$desk/book/other.md
printf '%s\n' 'Of plums.' '' '```tamis' 'Recipe: Plum Toast' '' 'Ingredients:' '- 1 slice bread' '- 2 plums' '' 'Method:' '1. Toast the bread.' '```' >"$POST"
printf '%s\n' 'Of tamis, and of no recipe.' >"$OTHER"

# What the page of an editor tells to do: its blocks of one language.
page() {
    sed -n "/^\`\`\`$2\$/,/^\`\`\`\$/{/^\`\`\`/d;p}" "editors/$1/README.md" | grep . || { echo "editors/$1/README.md has no block of $2" >&2; return 1; }
}

# The server has ended, and well.
check_the_end() {
    [ "$(cat "$LEFT")" = 0 ] || { echo "the server ended with code $(cat "$LEFT")" >&2; return 1; }
    echo "the server has ended with code 0"
}

# What was mended has been saved, and laid out as the command line does it.
check_what_is_saved() {
    "$program" format --check "$SAMPLE" >&2 || return 1
    if "$program" check --output json "$SAMPLE" | grep -q '"ingredient-unused"'; then
        echo "the walnuts are still unused on the command line, after saving" >&2
        return 1
    fi
    echo "saved; on the command line the walnuts are used, too, and nothing is left to lay out"
}
