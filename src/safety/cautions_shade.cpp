// The words of the cautions for panels that are shaded on purpose.

#include <array>

#include "safety/caution_lists.hpp"

namespace hailwright {
namespace {

constexpr std::array words{
    Caution{
        .id = "shaded_part",
        .group = CautionGroup::panel,
        .hazard = "A shaded part of a loaded panel gets hot: burns, fire",
        .text = "Cover with an opaque card that lies loose, and read the open-circuit voltage "
                "first. Under load shade for one or two minutes only, stay with it, watch the "
                "covered cells with an infrared thermometer, and take the card off at a smell or a "
                "brown mark.",
        .trigger = "the record has readings in the shade",
        .source = "IEC 61215, hot-spot test, heats shaded cells on purpose",
        .status = ReadStatus::from_memory,
        .status_note = "the test is from memory, the minutes are ours",
    },
};

}  // namespace

std::span<const Caution> shade_cautions() {
  return words;
}

}  // namespace hailwright
