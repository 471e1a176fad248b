#!/usr/bin/env python3
"""Opens the Darwin Core archive that `evet share` writes, as a stranger's reader would, and holds its descriptor to its
files by the rules of the Darwin Core text guide (TDWG, dwc.tdwg.org/text, sections 2 to 4; from memory).

Usage: read_darwin_core.py EVET DRAW_POND. Standard library alone.
"""
import csv
import io
import pathlib
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as xml
import zipfile

TEXT = "{http://rs.tdwg.org/dwc/text/}"
TERMS = "http://rs.tdwg.org/dwc/terms/"
# Of rs.tdwg.org/dwc/terms, those that an occurrence of this kind may use; from memory.
KNOWN = set("""occurrenceID basisOfRecord occurrenceStatus individualCount scientificName organismID sex lifeStage eventID
eventDate verbatimEventDate samplingProtocol sampleSizeValue sampleSizeUnit locationID decimalLatitude decimalLongitude
geodeticDatum coordinateUncertaintyInMeters dataGeneralizations informationWithheld""".split())
BASES = {"HumanObservation", "MachineObservation", "PreservedSpecimen", "LivingSpecimen", "MaterialSample", "Occurrence"}


def check(condition, message):
    if not condition:
        sys.exit("read_darwin_core.py: " + message)


def read(path):
    with zipfile.ZipFile(path) as archive:
        check(archive.testzip() is None, "a file of the archive does not have its checksum")
        names = archive.namelist()
        check(len(names) == len(set(names)), "a file lies twice in the archive")
        check("meta.xml" in names, "the descriptor does not lie at the archive's root")
        meta = xml.fromstring(archive.read("meta.xml"))
        check(meta.tag == TEXT + "archive", "the descriptor is no archive of the text guide")
        described = {"meta.xml", meta.get("metadata")}
        check(meta.get("metadata") in names, "the metadata file is not in the archive")
        eml = xml.fromstring(archive.read(meta.get("metadata")))
        check(eml.tag.startswith("{eml://ecoinformatics.org/"), "the metadata are no EML")
        for part in ("title", "creator", "pubDate", "abstract", "contact"):
            check(eml.find("dataset/" + part) is not None, "the metadata have no " + part)
        cores = meta.findall(TEXT + "core")
        check(len(cores) == 1, "there is not one core")
        core = cores[0]
        check(core.get("rowType") == TERMS + "Occurrence", "the core does not hold occurrences")
        locations = [one.text for one in core.findall(f"{TEXT}files/{TEXT}location")]
        check(len(locations) == 1 and locations[0] in names, "the core names a file that is not there")
        described.update(locations)
        check(set(names) == described, f"files that nothing describes: {set(names) - described}")
        text = archive.read(locations[0]).decode(core.get("encoding"))
    return core, text


def rows_of(core, text):
    """Read by what the descriptor says of the file, and by nothing else."""
    ends = core.get("linesTerminatedBy").encode().decode("unicode_escape")
    check(text.endswith(ends) and "\n" not in text.replace(ends, ""), "lines do not end as the descriptor says")
    table = csv.reader(io.StringIO(text, newline=""), delimiter=core.get("fieldsTerminatedBy"), quotechar=core.get("fieldsEnclosedBy"), strict=True)
    rows = list(table)
    heads = int(core.get("ignoreHeaderLines"))
    check(heads == 1, "there is no line of names to check against")
    return rows[0], rows[heads:]


def main(evet, draw_pond):
    with tempfile.TemporaryDirectory() as folder:
        pond, out = pathlib.Path(folder) / "pond", pathlib.Path(folder) / "shared"
        subprocess.run([draw_pond, pond, "everything"], check=True, stdout=subprocess.DEVNULL)
        subprocess.run([evet, "share", pond, "--species", "Newtus inventus", "--out", out], check=True, stdout=subprocess.DEVNULL)
        core, text = read(out / "darwin_core.zip")
    heads, rows = rows_of(core, text)
    fields = {int(one.get("index")): one.get("term") for one in core.findall(TEXT + "field")}
    check(sorted(fields) == list(range(len(heads))), "the fields are not the columns")
    for index, term in fields.items():
        check(term == TERMS + heads[index], f"column {index} is headed {heads[index]} and described as {term}")
        check(heads[index] in KNOWN, f"{heads[index]} is no term of Darwin Core")
    check(all(len(row) == len(heads) for row in rows), "a row has more or fewer fields than the descriptor")
    ids = [row[int(core.find(TEXT + "id").get("index"))] for row in rows]
    check(len(ids) == len(set(ids)) and all(ids), "the identifiers are not one to a row")
    occurrences = [dict(zip(heads, row)) for row in rows]
    check(len(occurrences) > 20, "too few occurrences to tell anything by")
    for one in occurrences:
        check(one["basisOfRecord"] in BASES, "a basis of record that is none: " + one["basisOfRecord"])
        check(one["occurrenceStatus"] == ("absent" if one["individualCount"] == "0" else "present"), "a count that does not fit the status")
        check(one["scientificName"] == "Newtus inventus", "another species")
        check(not one["decimalLatitude"] or -90 <= float(one["decimalLatitude"]) <= 90, "a latitude that is none")
    check(any(one["occurrenceStatus"] == "absent" for one in occurrences), "the night without a catch is not there")
    print(f"{len(occurrences)} occurrences in {len(heads)} terms, as their descriptor says")


if __name__ == "__main__":
    main(*sys.argv[1:])
