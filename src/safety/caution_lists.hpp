#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "hailwright/model/stress.hpp"
#include "hailwright/safety/cautions.hpp"

namespace hailwright {

/// The cautions of hail and of every test of a panel.
std::span<const Caution> usual_cautions();
/// Those of a panel that is shaded on purpose.
std::span<const Caution> shade_cautions();

/// Those of all kinds of other stress, kind after kind, in the words of their files.
std::vector<Caution> stress_cautions();

/// The kind whose own caution this is; nullptr for one of `usual_cautions`.
const StressKind* kind_of_caution(std::string_view id);

}  // namespace hailwright
