// The shared records as files that other programs read: tables with a Frictionless data package (specs.frictionlessdata.io,
// profile tabular-data-package), and the occurrences as a Darwin Core archive (dwc.tdwg.org/text: a zip whose root holds
// the descriptor meta.xml and the files it names; terms of rs.tdwg.org/dwc/terms) with the metadata in EML 2.1.1. Every value is escaped; what is not known is left empty.
#pragma once
#include <map>
#include <string>

#include "tools/share/shared_records.h"

namespace evet {

// Path within the folder -> what is in it. The same records, the same files.
using SharedFiles = std::map<std::string, std::string>;

SharedFiles data_package(const SharedRecords& records);
// The files of the archive, and the archive itself: they alone, in one zip ("darwin_core.zip").
SharedFiles darwin_core_files(const SharedRecords& records);
SharedFiles darwin_core_archive(const SharedRecords& records);

// A zip of these files, each under its name and dated `made_at` (ISO 8601): the same files, the same bytes. Errors:
// storage, where the library fails.
std::string zip_of(const SharedFiles& files, const std::string& made_at);

// One line of CSV (RFC 4180) with its line end; no field can be taken for a formula by a spreadsheet.
std::string csv_line(const std::vector<std::string>& fields);
std::string number_text(const std::optional<double>& value);  // empty when absent

}  // namespace evet
