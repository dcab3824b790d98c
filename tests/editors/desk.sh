# A desk for an editor that is tried: a home of its own, the program on the PATH, and a sample to work on. Sourced with `program` set; sets
# and exports HOME, PATH, SAMPLE, and LEFT, the file into which the program writes the code that it has ended with.

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

# What the page of an editor tells to do: its blocks of one language.
page() {
    sed -n "/^\`\`\`$2\$/,/^\`\`\`\$/{/^\`\`\`/d;p}" "editors/$1/README.md" | grep . || { echo "editors/$1/README.md has no block of $2" >&2; return 1; }
}

# The server has ended, and well.
check_the_end() {
    [ "$(cat "$LEFT")" = 0 ] || { echo "the server ended with code $(cat "$LEFT")" >&2; return 1; }
    echo "the server has ended with code 0"
}

# What was mended has been saved.
check_what_is_saved() {
    if "$program" check --output json "$SAMPLE" | grep -q '"ingredient-unused"'; then
        echo "the walnuts are still unused on the command line, after saving" >&2
        return 1
    fi
    echo "saved; on the command line the walnuts are used, too"
}
