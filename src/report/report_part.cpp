#include "report/report_part.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "hailwright/core/contract.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

/// The write-up as if it were of this record alone, for its tables.
WriteUp only(const WriteUp& write_up, std::size_t index) {
  WriteUp one;
  one.judged = {write_up.judged[index]};
  one.sources = write_up.sources;
  one.inputs = write_up.inputs;
  one.version = write_up.version;
  return one;
}

/// Each row begins with the record's title, which is the heading above.
void leave_out_record(DataTable& table) {
  table.columns.erase(table.columns.begin());
  for (auto& row : table.rows)
    row.erase(row.begin());
}

}  // namespace

ReportSubject::ReportSubject(const WriteUp& all, std::size_t index)
    : write_up(all), judged(all.judged.at(index)), test(*judged.test), record(test.record),
      protocol(test.protocol), assessment(*judged.assessment), sources(*all.sources),
      suffix(all.judged.size() > 1 ? fmt::format("-{}", index + 1) : "") {}

ReportPart::ReportPart(const WriteUp& all, std::size_t index)
    : ReportSubject(all, index), tables_(report_tables(only(all, index))),
      photo_names_(photos_named(test)), index_(index) {
  for (DataTable& table : tables_)
    leave_out_record(table);
}

void ReportPart::section(Document& out, const char* title, std::string_view id) const {
  out.blocks.push_back(Heading{2, plain(title), std::string(id) + suffix});
}

std::string ReportPart::link(std::string_view id) const {
  return fmt::format("#{}{}", id, suffix);
}

void ReportPart::append_table(Document& out, std::string_view name, std::size_t most_rows) const {
  const auto found = std::find_if(tables_.begin(), tables_.end(),
                                  [&](const DataTable& table) { return table.name == name; });
  if (found == tables_.end()) return;
  const std::string file = found->name + ".csv";
  if (most_rows > 0 && found->rows.size() > most_rows) {
    out.blocks.push_back(
        Paragraph{{{fmt::format("{} rows, too many for a page, stand in ", found->rows.size())},
                   {file, Tone::plain, file},
                   {"."}}});
    return;
  }
  out.blocks.push_back(to_table(*found));
}

void ReportPart::append_photo(Document& out, const std::string& file) {
  if (file.empty() || !shown_.insert(photo_path(file)).second) return;
  const auto named =
      std::find_if(photo_names_.begin(), photo_names_.end(), [&](const PhotoName& photo) {
        return photo_path(photo.file) == photo_path(file);
      });
  expects(named != photo_names_.end(), "a photo that the record names");
  if (index_ < write_up.photos.size()) {
    const auto& photos = write_up.photos[index_];
    const auto found = photos.find(named->file);
    if (found != photos.end()) {
      Photo photo = found->second;
      photo.title = capitalised(photo.title);
      out.blocks.push_back(std::move(photo));
      return;
    }
  }
  out.blocks.push_back(
      Paragraph{plain(fmt::format("Photo, not shown here: {} ({})", named->shows, file))});
}

std::vector<ReportPart> parts_of(const WriteUp& write_up) {
  std::vector<ReportPart> parts;
  parts.reserve(write_up.judged.size());
  for (std::size_t i = 0; i < write_up.judged.size(); ++i)
    parts.emplace_back(write_up, i);
  return parts;
}

}  // namespace hailwright
