#!/usr/bin/env bash
# Fetches photographs and photographic textures that Debian packages carry, for grounds of rendered pictures.
# Usage: tools/train/fetch_grounds.sh [FOLDER [PACKAGE...]]   default build/grounds; about 0.7 GB of downloads, 25 MB are kept (EVET_MEGABYTES)
#   FOLDER/*.jpg        at most 800 pictures of at most 640 pixels (EVET_LARGEST)
#   FOLDER/LICENCES.txt package, version and licences by its debian/copyright, and which file came from where
# Name the folder in EVET_GROUNDS when rendering. Nothing of it belongs in the repository. Packages whose pictures
# serve as photographs that show no animal when the program is scored (opencv-doc, mate-backgrounds,
# plasma-workspace-wallpapers) are left out on purpose.
set -euo pipefail
cd "${0%/*}/../.."
folder=${1:-build/grounds}
largest=${EVET_LARGEST:-640}
packages=(scorched3d-data trigger-rally-data openarena-081-textures ufoai-textures extremetuxracer-data
  ukui-wallpapers lomiri-wallpapers-16.04)
[ $# -lt 2 ] || packages=("${@:2}")
most_of_each=${EVET_MOST_OF_EACH:-130} most=800 most_bytes=$((${EVET_MEGABYTES:-25} * 1000 * 1000))
for program in convert identify unzip dpkg-deb apt-get; do
  command -v "$program" >/dev/null || { echo "fetch_grounds.sh: $program is missing; install imagemagick and unzip" >&2; exit 2; }
done
mkdir -p "$folder"
folder=$(cd "$folder" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
rm -f "$folder"/*.jpg
licences=$folder/LICENCES.txt
printf 'Pictures for training grounds. Reduced from files of these Debian packages; not for passing on.\n' >"$licences"

# Maps of slopes and gloss, lights, letters and panels are no photographs.
not_grounds='(_nm|_n|_norm|_normal|_bump|_spec|_gm|_glow|_local|_height|_alpha|_mask)\.|/(meshes|tanks|models|vehicles|players|weapons|maps|font|icon|gui|hud|menu|env|sky|skies|sfx|effects|decals|liquids|base_light|gfx|levelshots|icons)/'

for package in "${packages[@]}"; do
  echo "fetch_grounds.sh: $package"
  mkdir -p "$work/$package/tree"
  (cd "$work/$package" && apt-get download -q -o APT::Sandbox::User=root "$package" >/dev/null)
  deb=$(ls "$work/$package"/*.deb)
  dpkg-deb -x "$deb" "$work/$package/tree"
  find "$work/$package/tree" -name '*.pk3' -o -name '*.zip' | while read -r archive; do
    unzip -qo "$archive" -d "$archive.tree" || true
    rm -f "$archive"
  done
  copyright=$(find "$work/$package/tree/usr/share/doc" -name 'copyright*' | head -n 1)
  {
    printf '\n%s %s\n' "$package" "$(dpkg-deb -f "$deb" Version)"
    case $copyright in *.gz) zcat "$copyright" ;; *) cat "$copyright" ;; esac | grep -iE '^ *licen[cs]e:|public domain' | sort -u | sed 's/^/  /' || true
  } >>"$licences"
  # In an order that follows from the names alone, so that a second run picks the same.
  find "$work/$package/tree" -type f -size +8k -regextype posix-extended -iregex '.*\.(jpe?g|png|tga|webp)' |
    { grep -viE "$not_grounds" || true; } | while read -r picture; do printf '%s %s\n' "$(printf %s "${picture#"$work"}" | sha1sum | cut -c1-12)" "$picture"; done |
    sort >"$work/$package/list"
  kept=0
  while read -r key picture; do
    [ "$kept" -lt "$most_of_each" ] || break
    # Large enough and opaque; neither flat nor grey (maps of heights) nor for a good part black (sheets of pieces).
    about=$(identify -format '%w %h %[opaque]\n' "$picture[0]" 2>/dev/null | head -n 1) || continue
    read -r width height opaque <<<"$about" || continue
    { [ "${width:-0}" -ge 200 ] && [ "${height:-0}" -ge 200 ] && [ "${opaque,,}" = true ]; } || continue
    small=("$picture[0]" -resize '64x64!' -colorspace sRGB)
    figures=$(convert "${small[@]}" -format '%[fx:100*standard_deviation] %[fx:100*(abs(mean.r-mean.g)+abs(mean.g-mean.b))] ' \
      -write info: -channel RGB -threshold 6% -format '%[fx:mean]' info: 2>/dev/null) || continue
    awk '{ exit !($1 > 1.7 && $2 > 0.3 && $3 > 0.85) }' <<<"$figures" || continue
    convert "$picture[0]" -colorspace sRGB -strip -resize "${largest}x$largest>" -quality 70 "$folder/$package-$key.jpg" 2>/dev/null || continue
    printf '    %s-%s.jpg  %s\n' "$package" "$key" "${picture#"$work/$package/tree"}" >>"$licences"
    kept=$((kept + 1))
  done <"$work/$package/list"
  echo "fetch_grounds.sh: $package: $kept pictures"
  rm -rf "${work:?}/$package"
done

# The largest go first where it is too much.
while [ "$(cat "$folder"/*.jpg | wc -c)" -gt "$most_bytes" ] || [ "$(find "$folder" -name '*.jpg' | wc -l)" -gt "$most" ]; do
  find "$folder" -name '*.jpg' -printf '%s %p\n' | sort -rn | head -n 8 | cut -d' ' -f2- | xargs rm -f
done
echo "fetch_grounds.sh: $(find "$folder" -name '*.jpg' | wc -l) pictures, $(du -sh "$folder" | cut -f1), in $folder"
