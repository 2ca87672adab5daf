#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "hailwright/core/source.hpp"
#include "hailwright/report/compose.hpp"
#include "hailwright/report/data_table.hpp"
#include "hailwright/report/document.hpp"
#include "hailwright/report/workbook.hpp"

namespace hailwright {

/// A file that the judgement was made from, copied beside the write-up.
struct InputCopy {
  std::string path;  ///< below the folder of the write-up: "inputs/panels/a.yaml"
  std::string name;  ///< as `SourceSet` and messages name it
  std::string sha256;
  std::size_t bytes = 0;
};

/// All that a write-up is made from. The same of it gives the same bytes in every format.
struct WriteUp {
  std::vector<Judged> judged;  ///< one or more
  const SourceSet* sources = nullptr;
  std::vector<InputCopy> inputs;
  /// Cleaned photos, one map a judged record, by the name that the record gives them
  /// (`photos_named`). Names that are not in it are told in words.
  std::vector<std::map<std::string, Photo>> photos;
  std::string version;  ///< of the program: "0.1.0"
};

/// A photo that a record names, once each, in the order of the record.
struct PhotoName {
  std::string file;  ///< as the record writes it, from the record's folder
  SourceSpan where;
  std::string shows;  ///< "After large: scuff at place 14", or as the record says it; all of it
  std::string description;  ///< for whoever cannot see it
};
std::vector<PhotoName> photos_named(const Test& test);

/// The plainest writing of a photo's name: "./a/../b/x.jpg" is "b/x.jpg". Names that come out alike
/// are one photo.
std::string photo_path(const std::string& file);

/// What marks this write-up among others: twelve hexadecimal digits in groups of four, made from
/// the whole judgement as `report_json` tells it (inputs by their checksums, version, random
/// trials, a reader's limit) and from the photos shown. Takes about as long as `report_json`.
std::string report_id(const WriteUp& write_up);

/// The report for readers, by the checklist of ISO/IEC 17025:2017, 7.8 for one reviewer: what to
/// see first, questions of readers, verdict, item, method, delivery, power, looks, what could have
/// been seen, what was assumed, deviations, safety, data.
Document compose_report(const WriteUp& write_up);

/// The whole judgement for machines; its form is docs/schemas/report.schema.json.
std::string report_json(const WriteUp& write_up);

/// The same in one line, for files of many reports (JSON Lines).
std::string report_json_line(const WriteUp& write_up);

/// Version of that form: a reader of an older one may not know what a newer one says.
inline constexpr int report_schema_version = 3;

/// The tables of the judged records, each row beginning with the record's title: set-ups, readings,
/// places, shots, budget, set-ups from logs, sessions, comparison. A table without rows is left
/// out.
std::vector<DataTable> report_tables(const WriteUp& write_up);

/// The spreadsheet: verdict, readings, set-ups, places, shots, budget, set-ups from logs, sessions,
/// comparison, with live formulas for the normalisation, the means, the loss and the price.
Workbook report_workbook(const WriteUp& write_up);

}  // namespace hailwright
