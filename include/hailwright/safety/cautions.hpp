#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "hailwright/core/citation.hpp"
#include "hailwright/core/quantity.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/protocol.hpp"

namespace hailwright {

/// Whom a caution concerns first; outputs group by it.
enum class CautionGroup { people, eyes, launcher, panel, ice, afterwards };

/// One caution: the only place where its words stand is src/safety/cautions.cpp.
struct Caution {
  std::string_view id;
  CautionGroup group;
  std::string_view hazard;   ///< a few words
  std::string_view text;     ///< what to do
  std::string_view trigger;  ///< when it is shown, in words: "energy of 6.2 J or more"
  std::string_view source;
  ReadStatus status;
  std::string_view status_note;  ///< what was read and what was not; may be empty
};

std::span<const Caution> all_cautions();

/// What is known of a test; each caution is triggered by some of it. Unknown stays absent, and a
/// caution whose trigger cannot be ruled out is shown.
struct CautionFacts {
  bool launches = false;         ///< a ball is launched, thrown or dropped
  std::optional<Energy> energy;  ///< upper value of the hardest shot
  std::optional<EnergyPerArea> energy_per_area;
  std::optional<Launcher> launcher;
  bool panel_present = false;  ///< a panel is struck and read
  std::optional<Build> build;
  std::optional<Voltage> open_voltage_cold;
  std::optional<TemperaturePoint> hottest_panel;
  std::optional<TemperaturePoint> panel_at_shots;
  std::optional<TemperaturePoint> ball;  ///< as it leaves the freezer
  bool broken = false;                   ///< glass, sheet or laminate broken
  bool power_station = false;            ///< the load is a power station or charge controller
  bool published = false;                ///< the output goes to readers
};

/// The cautions that these facts trigger, most urgent first. Never empty for a launch.
std::vector<const Caution*> cautions_for(const CautionFacts& facts);

}  // namespace hailwright
