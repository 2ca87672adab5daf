#pragma once

namespace hailwright {

/// The four words of a judgement (MEASUREMENT M11).
enum class Word { withstood, damaged, undecided, not_reached };

}  // namespace hailwright
