#pragma once

#include <string_view>

namespace hailwright::detail {

/// How the pixels of a JPEG or PNG file are to be turned to be seen upright: its EXIF orientation,
/// 1 to 8; 1 (as stored) where there is none or it cannot be read. The one thing that is taken over
/// from what a photo says about itself.
/// Sources: JPEG segments, ITU-T T.81, B.1.1; EXIF in APP1 and its directory, CIPA DC-008
/// (EXIF 2.32), 4.5.4 and 4.6; PNG chunk eXIf, PNG specification (third edition), 11.3.4.5; all
/// from memory.
int photo_orientation(std::string_view file);

}  // namespace hailwright::detail
