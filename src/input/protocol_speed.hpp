#pragma once

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/protocol.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

inline constexpr KeyList speed_keys{
    "speed", "by trials video length length_accuracy positions gates radar sounds accuracy spread "
             "within uncertainty parallax rate_accuracy shutter height_accuracy to_panel drift"};
inline constexpr KeyList positions_keys{"positions", "video accuracy scale_accuracy"};
inline constexpr KeyList gates_keys{"gates", "spacing spacing_accuracy time_accuracy"};
inline constexpr KeyList radar_keys{"radar",
                                    "accuracy spread within uncertainty angle angle_within"};
inline constexpr KeyList sounds_keys{"sounds",
                                     "path path_accuracy launcher_to_microphone "
                                     "panel_to_microphone microphone_accuracy air time_accuracy"};
inline constexpr KeyList shutter_keys{"shutter", "readout readout_accuracy field flight"};

/// Reads `speed:` of a protocol. `launch` has height and kind for `by: drop` and the temperature of
/// the air for sounds; nullptr where it could not be read, and what needs it is not checked.
SpeedMethod read_speed(const Entry& entry, const Launch* launch, Diagnostics& notes);

}  // namespace hailwright::input
