#!/usr/bin/env bash
# Gathers every text that a person is told into tools/messages/evet.pot, for translators: from the MessageText in
# each messages.h, and of the page's scripts from t('...') and counted(n, '...', '...'). messages.sh writes it; messages.sh --check says whether it is whole, as a test does.
# A translation is LANGUAGE.po beside it: msginit -i evet.pot -l LANGUAGE, later msgmerge -U LANGUAGE.po evet.pot.
set -euo pipefail
cd "$(dirname "$0")/.."
gathered=$(mktemp)
trap 'rm -f "$gathered"' EXIT
{ find matcher models tools -name messages.h; find tools/review/page -name '*.js'; } | LC_ALL=C sort |
  xgettext --files-from=- --from-code=UTF-8 --package-name=evet --no-wrap --no-location --sort-by-file \
    --keyword=MessageText:2,2t --keyword=MessageText:2,3,3t --keyword=t:1 --keyword=counted:2,3 --output=- |
  sed -e '/^"POT-Creation-Date/d' -e '1,/^#$/s/^# SOME DESCRIPTIVE.*/# What evet says to people./' -e '/^# Copyright/d' \
    -e '/^# This file is distributed/d' -e '/^# FIRST AUTHOR/d' -e 's/charset=CHARSET/charset=UTF-8/' >"$gathered"
case ${1:-} in
  "") cp "$gathered" tools/messages/evet.pot ;;
  --check)
    diff -u tools/messages/evet.pot "$gathered" ||
      { echo "tools/messages/evet.pot is not what the sources say; run tools/messages.sh" >&2; exit 1; }
    for translation in tools/messages/*.po; do
      [ -e "$translation" ] || continue
      msgfmt --check --output-file=/dev/null "$translation"
    done ;;
  *) echo "messages.sh: '$1' is not known; use --check or nothing" >&2; exit 2 ;;
esac
