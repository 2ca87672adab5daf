#pragma once

#include <string>

namespace hailwright::testing {

/// Fails unless tests/golden/NAME.svg holds exactly this picture, approved by somebody who looked
/// at it.
void check_golden(const std::string& name, const std::string& svg);

/// Makes this picture the approved one. For tests tagged [.][write-golden] alone.
void write_golden(const std::string& name, const std::string& svg);

/// All texts of a picture, a blank between them.
std::string picture_words(const std::string& svg);

/// Black, white and greys alone: a printer without colour loses nothing. No text below 14 units.
void check_ink(const std::string& svg);

}  // namespace hailwright::testing
