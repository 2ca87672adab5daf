#pragma once

#include <optional>
#include <vector>

#include "hailwright/model/protocol.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

inline constexpr KeyList measure_keys{
    "measure", "compare before after readings meters maximum_power load redone setup_scatter "
               "expected_scatter day stage control_stability siblings unit_tolerance trend "
               "readings_independent cell_above_back"};
inline constexpr KeyList component_keys{"this component", "accuracy spread within uncertainty of"};

/// Reads `measure:` of a protocol.
MeasurementPlan read_measure(const Entry& entry, Diagnostics& notes);

/// The steps of a set-up that were redone: a list of mount, aim, probe, leads.
std::optional<std::vector<Redone>> read_redone(const MapReader& map, std::string_view key);

}  // namespace hailwright::input
