#include "hailwright/physics/speed_methods.hpp"

#include <cmath>
#include <numbers>

#include "hailwright/core/contract.hpp"
#include "hailwright/physics/flight.hpp"
#include "hailwright/physics/speed.hpp"
#include "hailwright/tables/hailstones.hpp"

namespace hailwright {

namespace {

// Constants of the US Standard Atmosphere 1976 and ISO 2533 [from memory].
constexpr double heat_ratio_of_air = 1.4;
constexpr double gas_constant_J_per_kgK = 287.05287;

// The smallest ball of the published hail tests (IEC 61215, 12.5 mm; tables/impact_grade_rows.cpp).
constexpr double smallest_ball_m = 0.0125;

double root_of_squares(const std::vector<SpeedTerm>& terms, bool shared, bool own) {
  double squares = 0.0;
  for (const SpeedTerm& term : terms) {
    if (term.shared ? shared : own) squares += term.u * term.u;
  }
  return std::sqrt(squares);
}

FlyingBall smallest_ice_ball() {
  const Mass mass = Mass::from_si(IceDensity::low.si() * std::numbers::pi / 6.0 * smallest_ball_m *
                                  smallest_ball_m * smallest_ball_m);
  return {mass, Length::from_si(smallest_ball_m)};
}

double fall_mps(const Fall& fall, const FlyingBall& ball, Density air, double drag) {
  return drop_speed(fall.height.value, terminal_speed(ball, air, drag)).si();
}

}  // namespace

double MeasuredSpeed::shared_u() const {
  return root_of_squares(terms, true, false);
}

double MeasuredSpeed::own_u() const {
  return root_of_squares(terms, false, true);
}

double MeasuredSpeed::standard_u() const {
  return root_of_squares(terms, true, true);
}

double MeasuredSpeed::term(SpeedError from) const {
  for (const SpeedTerm& t : terms) {
    if (t.from == from) return t.u;
  }
  return 0.0;
}

MeasuredSpeed speed_by_frames(double frames, const Estimate<FrameRate>& rate,
                              const Estimate<Length>& length, double parallax_u) {
  return {speed_from_frames(frames, rate.value, length.value),
          {{SpeedError::length, length.relative_u(), true},
           {SpeedError::parallax, parallax_u, true},
           {SpeedError::frame_rate, rate.relative_u(), true},
           {SpeedError::counting, frame_count_u / frames, false}}};
}

MeasuredSpeed speed_by_positions(Length moved, Length position_u, double frames,
                                 const Estimate<FrameRate>& rate, double scale_u,
                                 double parallax_u) {
  expects(moved.si() > 0.0 && frames > 0.0 && rate.value.si() > 0.0, "speed_by_positions: above 0");
  return {Speed::from_si(moved.si() * rate.value.si() / frames),
          {{SpeedError::scale, scale_u, true},
           {SpeedError::parallax, parallax_u, true},
           {SpeedError::frame_rate, rate.relative_u(), true},
           {SpeedError::position, std::numbers::sqrt2 * position_u.si() / moved.si(), false}}};
}

MeasuredSpeed speed_by_gates(const Estimate<Length>& spacing, Time between, Time clock_u,
                             Time display_u) {
  expects(spacing.value.si() > 0.0 && between.si() > 0.0, "speed_by_gates: above 0");
  return {spacing.value / between,
          {{SpeedError::length, spacing.relative_u(), true},
           {SpeedError::timing, (clock_u / between).si(), true},
           {SpeedError::display, (display_u / between).si(), false}}};
}

MeasuredSpeed speed_by_radar(Speed reading, Speed meter_u, Speed display_u, Angle angle,
                             Angle within) {
  expects(reading.si() > 0.0, "speed_by_radar: above 0");
  expects(angle.si() >= 0.0 && angle.si() < std::numbers::pi / 2.0, "speed_by_radar: angle");
  expects(within.si() >= 0.0, "speed_by_radar: half-width");
  const double cosine = std::cos(angle.si());
  const double first = std::tan(angle.si()) * within.si() / std::sqrt(3.0);
  // x uniform in -w..w: the root mean square of x^2/2 is w^2 / sqrt(20).
  const double second = within.si() * within.si() / (cosine * cosine) / std::sqrt(20.0);
  return {reading / cosine,
          {{SpeedError::meter, (meter_u / reading).si(), true},
           {SpeedError::angle, std::hypot(first, second), true},
           {SpeedError::display, (display_u / reading).si(), false}}};
}

Speed speed_of_sound(TemperaturePoint air) {
  return Speed::from_si(std::sqrt(heat_ratio_of_air * gas_constant_J_per_kgK * air.kelvin()));
}

Time flight_time(const TwoSounds& s) {
  return s.between - (s.panel_to_microphone - s.launcher_to_microphone) / s.sound.value;
}

MeasuredSpeed speed_by_sounds(const TwoSounds& s) {
  const Time flight = flight_time(s);
  expects(s.path.value.si() > 0.0 && flight.si() > 0.0, "speed_by_sounds: the flight takes time");
  const Time way = (s.panel_to_microphone - s.launcher_to_microphone) / s.sound.value;
  const Time ends = std::numbers::sqrt2 * (s.microphone_u / s.sound.value);
  const double sound_u =
      std::hypot(std::abs((way / flight).si()) * s.sound.relative_u(), (ends / flight).si());
  return {s.path.value / flight,
          {{SpeedError::length, s.path.relative_u(), true},
           {SpeedError::timing, (s.timing_u / flight).si(), true},
           {SpeedError::sound, sound_u, true},
           {SpeedError::display, (s.display_u / flight).si(), false}}};
}

MeasuredSpeed speed_by_fall(const Fall& fall) {
  const double height_m = fall.height.value.si();
  expects(height_m > 0.0 && fall.air.si() > 0.0, "speed_by_fall: above 0");
  expects(fall.air_half_width.si() >= 0.0 && fall.air_half_width < fall.air, "speed_by_fall: air");
  const FlyingBall ball = fall.ball.value_or(smallest_ice_ball());
  const double slow_mps = fall_mps(fall, ball, fall.air, drag_range::high);
  const double fast_mps = fall.ball ? fall_mps(fall, ball, fall.air, drag_range::low)
                                    : std::sqrt(2.0 * standard_gravity.si() * height_m);
  const double v_mps = 0.5 * (slow_mps + fast_mps);
  const double middle = 0.5 * (drag_range::low + drag_range::high);
  const double thick_mps = fall_mps(fall, ball, fall.air + fall.air_half_width, middle);
  const double thin_mps = fall_mps(fall, ball, fall.air - fall.air_half_width, middle);
  const double rectangular = 0.5 / std::sqrt(3.0) / v_mps;
  // d ln v / d ln h is 1/2 without air and less with it.
  return {Speed::from_si(v_mps),
          {{SpeedError::height, 0.5 * fall.height.relative_u(), true},
           {SpeedError::drag, (fast_mps - slow_mps) * rectangular, true},
           {SpeedError::air, (thin_mps - thick_mps) * rectangular, true}}};
}

MeasuredSpeed speed_by_setting(Speed nominal) {
  expects(nominal.si() > 0.0, "speed_by_setting: above 0");
  return {nominal, {{SpeedError::setting, setting_half_width / std::sqrt(3.0), true}}, false};
}

double rolling_shutter_factor(Speed speed, Time readout, Length field, FlightInPicture flight) {
  expects(speed.si() >= 0.0 && readout.si() >= 0.0 && field.si() > 0.0, "rolling_shutter_factor");
  const double share = speed.si() * readout.si() / field.si();
  if (flight == FlightInPicture::across) return 1.0;
  if (flight == FlightInPicture::against) return 1.0 / (1.0 + share);
  expects(share < 1.0, "rolling_shutter_factor: slower than the read-out");
  return 1.0 / (1.0 - share);
}

bool rolling_shutter_fits(Speed apparent, Time readout, Length field, FlightInPicture flight) {
  // Against the read-out, v_app = v/(1 + v t/H) stays below H/t however fast the ball is.
  return flight != FlightInPicture::against || apparent.si() * readout.si() < field.si();
}

MeasuredSpeed without_rolling_shutter(MeasuredSpeed apparent, const Estimate<Time>& readout,
                                      Length field, FlightInPicture flight) {
  expects(readout.value.si() > 0.0 && field.si() > 0.0, "without_rolling_shutter: above 0");
  expects(rolling_shutter_fits(apparent.value, readout.value, field, flight),
          "without_rolling_shutter: below the read-out");
  if (flight == FlightInPicture::across) return apparent;
  const double share = apparent.value.si() * readout.value.si() / field.si();
  const double divisor = flight == FlightInPicture::along ? 1.0 + share : 1.0 - share;
  // v = a / (1 +- a k): every relative error of a counts 1/(1 +- a k) times.
  apparent.value = apparent.value / divisor;
  for (SpeedTerm& term : apparent.terms)
    term.u /= divisor;
  apparent.terms.push_back({SpeedError::shutter, share / divisor * readout.relative_u(), true});
  return apparent;
}

double parallax_factor(Length to_scale, Length ball_nearer) {
  expects(to_scale.si() > 0.0 && ball_nearer < to_scale, "parallax_factor: in front of the camera");
  return to_scale.si() / (to_scale.si() - ball_nearer.si());
}

double out_of_plane_factor(Angle angle) {
  return std::cos(angle.si());
}

Length motion_blur(Speed speed, Time exposure) {
  return speed * exposure;
}

}  // namespace hailwright
