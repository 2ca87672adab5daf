#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "hailwright/model/record.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

inline constexpr KeyList photo_keys{"this photo", "file shows"};
inline constexpr KeyList write_up_keys{"write_up",
                                       "author contact place asked_by received issued opinions"};

/// Reads `photos:` of a record, those that belong to no look and no shot. A photo whose file or
/// words cannot be read is left out.
std::vector<RecordPhoto> read_photos(const MapReader& record, Diagnostics& notes);

/// Reads `write_up:` of a record: what a write-up says about itself.
WriteUpNotes read_write_up(const MapReader& record, Diagnostics& notes);

/// An error where the panel came after the first day of the record, or the write-up was issued
/// before the last one: of the shots, a set-up or a look. ISO dates compare as texts do.
void check_write_up_dates(const MapReader& record, const Record& read, Diagnostics& notes);

}  // namespace hailwright::input
