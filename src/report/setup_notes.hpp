#pragma once

#include <string>
#include <vector>

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/power.hpp"

namespace hailwright {

/// Whether a remark is made of each set-up by itself, so that several of one kind make one
/// sentence.
bool is_of_setup(PowerRemark remark);

/// What notes of one kind say of their set-ups, with the range of what was found.
/// Contract: one or more, of one remark that `is_of_setup`.
std::string setups_sentence(const std::vector<PowerNote>& notes);

/// "set-up 'before 1'", "set-ups 'before 1' to 'before 4' and 'after 2'".
/// Contract: one or more names.
std::string setups_text(const std::vector<std::string>& names);

/// The notes with those of one remark of set-ups together, and those of readings that lie apart in
/// one set-up, where the first of them stood.
std::vector<std::vector<PowerNote>> by_remark(const std::vector<PowerNote>& notes);

/// " (readings.csv, lines 11 to 30)": where notes of one kind come from; empty where no file is
/// known or they come from several.
std::string places_text(const SourceSet& sources, const std::vector<PowerNote>& notes);

/// " (before.csv, lines 11, 30, 31 and 9 more)": where single readings stand, the first ones alone
/// of many. As `places_text` for one.
std::string first_places_text(const SourceSet& sources, const std::vector<PowerNote>& notes);

}  // namespace hailwright
