#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/report/write_up.hpp"

namespace hailwright {

/// One judged record of a report: what its sections are made from.
struct ReportSubject {
  /// @param index  into WriteUp::judged
  ReportSubject(const WriteUp& all, std::size_t index);

  const WriteUp& write_up;
  const Judged& judged;
  const Test& test;
  const Record& record;
  const Protocol& protocol;
  const Assessment& assessment;
  const SourceSet& sources;
  std::string suffix;  ///< of ids: "" for a single record, "-2" for the second of several
};

/// The same with what sections share: links, tables, photos shown once.
class ReportPart : public ReportSubject {
public:
  ReportPart(const WriteUp& all, std::size_t index);

  /// A section: heading of level 2 with an id.
  void section(Document& out, const char* title, std::string_view id) const;
  /// The id of a section of this record, as links name it: "#power-2".
  [[nodiscard]] std::string link(std::string_view id) const;

  /// A table of `report_tables` with the rows of this record alone; nothing where it has none.
  void append_table(Document& out, std::string_view name, std::size_t most_rows = 0) const;
  /// The photo of this name, once; in words where it was not to be shown.
  void append_photo(Document& out, const std::string& file);

private:
  std::vector<DataTable> tables_;
  std::vector<PhotoName> photo_names_;
  std::set<std::string> shown_;
  std::size_t index_;
};

/// All of a write-up, which must outlive them. Each makes its tables once.
std::vector<ReportPart> parts_of(const WriteUp& write_up);

}  // namespace hailwright
