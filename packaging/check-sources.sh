#!/usr/bin/env bash
# Formatting, layers, and paths named in documents. Prints what is wrong; exits 1 if anything is.
set -uo pipefail
cd "$(dirname "$0")/.."
wrong=0

# no_include FOLDER PATTERN WHY: no source of the folder may include what the pattern matches.
no_include() {
    local found
    found=$(grep -rnE "^ *# *include *[<\"]($2)" "$1" --include='*.h' --include='*.cpp')
    if [ -n "$found" ]; then
        printf '%s\n%s\n' "$3" "$found"
        wrong=1
    fi
}
no_include core 'Q[A-Za-z]' 'core must not know Qt:'
no_include core '(db|render|app)/' 'core must not include a higher floor:'
no_include db '(render|app|core/files)/' 'db must not include render, app or core/files:'
no_include render '(db|app|core/files)/' 'render must not include db, app or core/files:'
found=$(grep -rnE '# *include *[<"](core/files/|json/)' core --include='*.h' --include='*.cpp' | grep -v '^core/files/')
if [ -n "$found" ]; then
    printf 'Only core/files may know the file formats:\n%s\n' "$found"
    wrong=1
fi

if ! git ls-files '*.h' '*.cpp' | xargs clang-format --dry-run --Werror; then
    echo 'Not formatted: run clang-format -i on these.'
    wrong=1
fi

# Paths in backticks that look like files or folders of this tree must exist.
for document in README.md DEVELOPERS.md resources/guide/*.md; do
    while read -r path; do
        if [ ! -e "${path%/}" ]; then
            echo "$document names $path, which is not there."
            wrong=1
        fi
    done < <(grep -oE '`(app|core|render|db|tests|resources|packaging)/[A-Za-z0-9_./-]*`' "$document" | tr -d '`' | sort -u)
done
exit $wrong
