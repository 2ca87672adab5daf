#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/citation.hpp"
#include "hailwright/core/quantity.hpp"
#include "hailwright/model/place_layout.hpp"
#include "hailwright/model/speed_reading.hpp"

namespace hailwright {

/// Every value that is taken when the files say nothing. Wide on purpose, listed whenever used.
/// There is none for what was seen, what was hit, how many set-ups, how many misses.
enum class DefaultId {
  risk,
  see_chance,
  tolerance,
  place_size,
  coefficient_unknown,
  coefficient_sheet,
  cell_above_back,
  meter_accuracy,
  meter_between_stages,
  sun_accuracy,
  sun_between_stages,
  thermometer_accuracy,
  thermometer_each_time,
  day_same_panel,
  day_control_panel,
  stage_same_panel,
  control_stability,
  scales_accuracy,
  unit_mass,
  calipers_accuracy,
  density,
  seconds_out,
  air_temperature,
  video_length,
  parallax,
  frame_rate,
  speed_accuracy,
  position_reading,
  picture_scale,
  shutter_readout,
  gate_spacing,
  gate_time,
  radar_angle,
  sound_path,
  sound_microphone,
  sound_time,
  sound_air,
  speed_display,
  drop_height,
  drop_drag,
  nominal_setting,
  distance_to_panel,
  launcher_drift,
  air_density,
  drag,
  melting,
  hit_angle,
  launcher_spread,
  planned_trials,
  launch_height,
  launch_distance,
  display_step
};

/// One row of docs/defaults.md.
struct DefaultRow {
  DefaultId id;
  std::string_view what;     ///< "sun meter"
  std::string_view taken;    ///< "reads within 10 %"
  std::string_view replace;  ///< the line that replaces it: "tools: sun: accuracy: ..."
  std::string_view why;
  ReadStatus status;
  std::string_view budget;  ///< begins of the ids of its rows in the power budget, by blanks
};

std::span<const DefaultRow> default_rows();
const DefaultRow& default_row(DefaultId id);

/// The numbers themselves. Half-widths unless called u (standard uncertainty).
namespace defaults {
inline constexpr Ratio risk = percent(2.5);
inline constexpr Ratio see_chance = percent(90);
inline constexpr Ratio tolerance = percent(5);
inline constexpr Length place_size = usual_place_radius;
inline constexpr TemperatureCoefficient coefficient = TemperatureCoefficient::from_si(-0.0035);
inline constexpr TemperatureCoefficient coefficient_unknown =
    TemperatureCoefficient::from_si(0.0015);
inline constexpr TemperatureCoefficient coefficient_sheet = TemperatureCoefficient::from_si(0.0005);
inline constexpr TemperatureDifference cell_above_back = TemperatureDifference::from_si(3.0);
inline constexpr TemperatureDifference cell_above_back_within = TemperatureDifference::from_si(3.0);
inline constexpr Ratio meter_gain = percent(5);
inline constexpr double meter_digits = 3;
inline constexpr Ratio meter_between = percent(5);  ///< of the gain's own size
inline constexpr Ratio sun_gain = percent(10);
inline constexpr Ratio sun_between = percent(10);  ///< of the gain's own size
inline constexpr TemperatureDifference thermometer = TemperatureDifference::from_si(3.0);
inline constexpr TemperatureDifference thermometer_each_time = TemperatureDifference::from_si(1.0);
inline constexpr Ratio day_same_panel_u = percent(1.0);
inline constexpr Ratio day_control_panel_u = percent(0.2);
inline constexpr Ratio stage_same_panel_u = percent(0.5);
inline constexpr Ratio control_stability_u = percent(0.5);
inline constexpr Ratio scales_gain = percent(1.0);
inline constexpr double scales_digits = 1;
inline constexpr Ratio unit_mass_u = percent(2.0);
inline constexpr Length calipers = Length::from_si(0.0003);
inline constexpr Density density = Density::from_si(900.0);
inline constexpr Density density_within = Density::from_si(30.0);
inline constexpr Time seconds_out = Time::from_si(120.0);
inline constexpr TemperaturePoint air_temperature = TemperaturePoint::from_kelvin(303.15);
inline constexpr Length video_length = Length::from_si(0.005);
inline constexpr Ratio parallax = percent(1.0);
inline constexpr Ratio frame_rate = percent(0.1);
inline constexpr Ratio speed_accuracy = percent(10);
inline constexpr Length position_reading = Length::from_si(0.005);
inline constexpr Ratio picture_scale = percent(1);
inline constexpr Ratio shutter_readout = percent(20);  ///< of itself
inline constexpr Length gate_spacing = Length::from_si(0.003);
inline constexpr Time gate_time = Time::from_si(0.0002);
inline constexpr Angle radar_angle = speed_unstated::radar_angle;
inline constexpr Angle radar_angle_within = speed_unstated::radar_angle_within;
inline constexpr Length sound_path = Length::from_si(0.05);
inline constexpr Length sound_microphone = Length::from_si(0.1);
inline constexpr Time sound_time = Time::from_si(0.005);
inline constexpr TemperaturePoint sound_air = speed_unstated::sound_air;
inline constexpr TemperatureDifference sound_air_within = TemperatureDifference::from_si(17.5);
inline constexpr Length drop_height = Length::from_si(0.02);
inline constexpr Ratio launcher_drift = percent(1.0);
inline constexpr double hit_angle_deg = 10.0;
inline constexpr Ratio launcher_spread = percent(3.0);  ///< standard deviation from shot to shot
inline constexpr int planned_trials = 5;                ///< the fewest that support a grade (M13)
inline constexpr Length launch_height = Length::from_si(2.0);
inline constexpr Length launch_distance = Length::from_si(5.0);
inline constexpr Density air_density = Density::from_si(1.2);
inline constexpr Density air_density_within = Density::from_si(0.1);
}  // namespace defaults

/// The defaults that one judgement used, each once, in the order of the table.
class Assumptions {
public:
  void use(DefaultId id);
  /// The same for one that bears on the shots, with the standard uncertainty that it brings to the
  /// energy of a shot, as a share; the largest over the shots is kept.
  void use(DefaultId id, Ratio on_energy);
  [[nodiscard]] bool uses(DefaultId id) const;
  [[nodiscard]] std::vector<DefaultId> used() const;
  [[nodiscard]] std::optional<Ratio> on_energy(DefaultId id) const;

private:
  std::vector<bool> used_ = std::vector<bool>(default_rows().size(), false);
  std::vector<std::optional<Ratio>> on_energy_ =
      std::vector<std::optional<Ratio>>(default_rows().size());
};

}  // namespace hailwright
