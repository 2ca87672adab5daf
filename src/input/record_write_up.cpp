#include "input/record_write_up.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace hailwright::input {

std::vector<RecordPhoto> read_photos(const MapReader& record, Diagnostics& notes) {
  std::vector<RecordPhoto> photos;
  if (record.find("photos") == nullptr) return photos;
  const std::vector<Node>* items = record.list("photos");
  if (items == nullptr) return photos;
  for (const Node& item : *items) {
    const MapReader map(item, photo_keys, item.span, notes);
    const Entry* file = map.require("file", "name the picture, as in  file: mounting.jpg");
    map.require("shows", "say what it shows, for whoever cannot see it:  shows: the mounting");
    RecordPhoto photo{item.span, map.text("file"), map.text("shows")};
    if (photo.file.empty() || photo.shows.empty()) continue;
    photo.origin = file->value.span;
    photos.push_back(std::move(photo));
  }
  return photos;
}

WriteUpNotes read_write_up(const MapReader& record, Diagnostics& notes) {
  const Entry* entry = record.find("write_up");
  if (entry == nullptr) return {};
  const MapReader map(entry->value, write_up_keys, entry->key_span, notes);
  WriteUpNotes read;
  read.author = map.text("author");
  read.contact = map.text("contact");
  read.place = map.text("place");
  read.asked_by = map.text("asked_by");
  read.received = map.date("received");
  read.issued = map.date("issued");
  read.opinions = map.texts("opinions");
  return read;
}

namespace {

/// Days of the shots, of all set-ups and of all looks, as far as they are known.
std::vector<std::string> days_of(const Record& record) {
  std::vector<std::string> days{record.date};
  for (const Setup& setup : record.setups)
    days.push_back(setup.date);
  for (const Look& look : record.looks)
    days.push_back(look.date);
  days.erase(std::remove(days.begin(), days.end(), ""), days.end());
  return days;
}

SourceSpan place_of(const MapReader& record, std::string_view key) {
  const Entry* entry = record.find("write_up");
  if (entry == nullptr) return record.owner();
  for (const Entry& inner : entry->value.entries) {
    if (inner.key == key) return inner.value.span;
  }
  return entry->key_span;
}

}  // namespace

void check_write_up_dates(const MapReader& record, const Record& read, Diagnostics& notes) {
  const std::vector<std::string> days = days_of(read);
  if (days.empty()) return;
  const auto [first, last] = std::minmax_element(days.begin(), days.end());
  const WriteUpNotes& write_up = read.write_up;
  if (!write_up.received.empty() && write_up.received > *first) {
    notes.error(
        "C36", place_of(record, "received"),
        fmt::format("the panel came on {}, after the test began ({})", write_up.received, *first),
        {"one of the two dates is wrong"});
  }
  const std::optional<Provenance>& came = read.panel.came;
  if (came && came->on > *first) {
    const Entry* panel = record.find("panel");
    notes
        .warning("C36", panel == nullptr ? record.owner() : panel->value.span,
                 fmt::format("by its file the panel came on {}, after the test began ({})",
                             came->on, *first),
                 {"one of the two dates is wrong, or the file is of another unit"})
        .related.push_back({read.panel.origin, "the file of the panel"});
  }
  if (!write_up.issued.empty() && write_up.issued < *last) {
    notes.error(
        "C36", place_of(record, "issued"),
        fmt::format("the write-up is dated {}, before the test ended ({})", write_up.issued, *last),
        {"one of the two dates is wrong"});
  }
}

}  // namespace hailwright::input
