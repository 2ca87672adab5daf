#include "hailwright/evaluate/speed_errors.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "metrology/rectangular.hpp"

namespace hailwright {

namespace {

/// Frames between two pictures when nobody counted yet [ours].
constexpr double imagined_frames_apart = 10.0;

/// Weather moves the pressure at one place by about this much, and the air is within about 12 K of
/// the standard atmosphere's, another 4 %, where nobody measured it [both ours].
constexpr double weather_half_width = 0.04;
constexpr double unknown_air_half_width = 0.08;

/// How well a stated temperature of the air is that of the way of the sounds [ours].
constexpr double stated_air_within_K = 5.0;

/// Reads the errors of a method and notes those it had to assume, once their size is known.
class Measuring {
public:
  Measuring(const SpeedMethod& method, Assumptions& assumptions)
      : m_(method), assumptions_(assumptions) {}

  MeasuredSpeed typed(Speed speed) {
    double u = 0.0;
    if (m_.error) {
      u = std::sqrt(std::pow(m_.error->relative_u(), 2) +
                    std::pow(m_.error->absolute_u(Speed{}).si() / speed.si(), 2));
    } else {
      u = rectangular(defaults::speed_accuracy.si());
      assume(DefaultId::speed_accuracy, SpeedError::meter);
    }
    return noted({speed, {{SpeedError::meter, u, true}}});
  }

  MeasuredSpeed frames(double count) {
    const Estimate<Length> length{*m_.length,
                                  stated_u(m_.length_error, *m_.length, defaults::video_length,
                                           DefaultId::video_length, SpeedError::length)};
    const double parallax = parallax_u();
    return noted(unrolled(speed_by_frames(count, rate(*m_.video), length, parallax)));
  }

  MeasuredSpeed positions(const SpeedReading& r) {
    const PositionsWay& way = *m_.positions;
    const Length position_u = stated_u(way.error, *r.moved, defaults::position_reading,
                                       DefaultId::position_reading, SpeedError::position);
    double scale = rectangular(defaults::picture_scale.si());
    if (way.scale) {
      scale = way.scale->relative_u();
    } else {
      assume(DefaultId::picture_scale, SpeedError::scale);
    }
    const double parallax = parallax_u();
    return noted(unrolled(
        speed_by_positions(*r.moved, position_u, *r.frames, rate(way.video), scale, parallax)));
  }

  MeasuredSpeed gates(const SpeedReading& r) {
    const GatesWay& way = *m_.gates;
    const Estimate<Length> spacing{way.spacing,
                                   stated_u(way.spacing_error, way.spacing, defaults::gate_spacing,
                                            DefaultId::gate_spacing, SpeedError::length)};
    const Time clock = stated_u(way.time_error, *r.time, defaults::gate_time, DefaultId::gate_time,
                                SpeedError::timing);
    return noted(speed_by_gates(spacing, *r.time, clock, display(r.time_step)));
  }

  MeasuredSpeed radar(const SpeedReading& r) {
    const RadarWay& way = *m_.radar;
    const Speed full_scale = *r.speed * defaults::speed_accuracy.si();
    const Speed meter_u =
        stated_u(way.error, *r.speed, full_scale, DefaultId::speed_accuracy, SpeedError::meter);
    if (!way.angle || !way.angle_within) assume(DefaultId::radar_angle, SpeedError::angle);
    return noted(speed_by_radar(*r.speed, meter_u, display(r.speed_step),
                                way.angle.value_or(defaults::radar_angle),
                                way.angle_within.value_or(defaults::radar_angle_within)));
  }

  MeasuredSpeed sounds(const SpeedReading& r) {
    const SoundsWay& way = *m_.sounds;
    TwoSounds s = two_sounds(way, *r.time);
    s.path.standard_u = stated_u(way.path_error, way.path, defaults::sound_path,
                                 DefaultId::sound_path, SpeedError::length);
    s.microphone_u = microphone_u(way);
    double air_within_K = stated_air_within_K;
    if (!way.air) {
      air_within_K = defaults::sound_air_within.si();
      assume(DefaultId::sound_air, SpeedError::sound);
    }
    // The speed of sound goes with the root of the temperature.
    const double kelvin = way.air.value_or(defaults::sound_air).kelvin();
    s.sound.standard_u = s.sound.value * (0.5 * rectangular(air_within_K) / kelvin);
    s.timing_u = stated_u(way.time_error, *r.time, defaults::sound_time, DefaultId::sound_time,
                          SpeedError::timing);
    s.display_u = display(r.time_step);
    return noted(speed_by_sounds(s));
  }

  MeasuredSpeed drop(Length height, const std::optional<FlyingBall>& ball, const FlightAir& air) {
    Fall fall;
    fall.height = {height, stated_u(m_.height_error, height, defaults::drop_height,
                                    DefaultId::drop_height, SpeedError::height)};
    fall.ball = ball;
    fall.air = air.density;
    fall.air_half_width = air.half_width;
    assume(DefaultId::drop_drag, SpeedError::drag);
    if (air.assumed) assume(DefaultId::air_density, SpeedError::air);
    return noted(speed_by_fall(fall));
  }

private:
  void assume(DefaultId id, SpeedError error) { assumed_.emplace_back(id, error); }

  /// Standard uncertainty of a stated error at a value, or of the default's half-width.
  template <class Q>
  Q stated_u(const std::optional<Stated<Q>>& error, Q value, Q half_width, DefaultId id,
             SpeedError term) {
    if (!error) {
      assume(id, term);
      return Q::from_si(rectangular(half_width.si()));
    }
    return Q::from_si(std::hypot(error->relative_u() * value.si(), error->absolute_u(Q{}).si()));
  }

  Length microphone_u(const SoundsWay& way) {
    const Length longer = std::max(way.launcher_to_microphone, way.panel_to_microphone);
    return stated_u(way.microphone_error, longer, defaults::sound_microphone,
                    DefaultId::sound_microphone, SpeedError::sound);
  }

  double parallax_u() {
    if (!m_.parallax) assume(DefaultId::parallax, SpeedError::parallax);
    return rectangular(m_.parallax.value_or(defaults::parallax).si());
  }

  Estimate<FrameRate> rate(FrameRate fps) {
    if (!m_.rate) assume(DefaultId::frame_rate, SpeedError::frame_rate);
    return {fps, fps * rectangular(m_.rate.value_or(defaults::frame_rate).si())};
  }

  template <class Q>
  Q display(const std::optional<Q>& step) {
    if (!step || step->si() == 0.0) return Q{};
    assume(DefaultId::speed_display, SpeedError::display);
    return *step / std::sqrt(12.0);
  }

  MeasuredSpeed unrolled(MeasuredSpeed apparent) {
    if (!m_.shutter || m_.shutter->flight == FlightInPicture::across) return apparent;
    const ShutterOfVideo& s = *m_.shutter;
    const Time u = stated_u(s.error, s.readout, s.readout * defaults::shutter_readout.si(),
                            DefaultId::shutter_readout, SpeedError::shutter);
    return without_rolling_shutter(std::move(apparent), {s.readout, u}, s.field, s.flight);
  }

  MeasuredSpeed noted(MeasuredSpeed speed) {
    for (const auto& [id, error] : assumed_)
      assumptions_.use(id, Ratio::from_si(2.0 * speed.term(error)));
    assumed_.clear();
    return speed;
  }

  const SpeedMethod& m_;
  Assumptions& assumptions_;
  std::vector<std::pair<DefaultId, SpeedError>> assumed_;
};

/// Apparent speed of a ball on a video; nothing when it outruns the read-out.
std::optional<Speed> on_video(const SpeedMethod& m, Speed speed) {
  if (!m.shutter) return speed;
  const ShutterOfVideo& s = *m.shutter;
  const bool outruns =
      s.flight == FlightInPicture::along && speed.si() * s.readout.si() >= s.field.si();
  if (outruns) return std::nullopt;
  return speed * rolling_shutter_factor(speed, s.readout, s.field, s.flight);
}

/// Whether a speed typed is not what this way reads.
bool worked_out(const SpeedMethod& m, const SpeedReading& r) {
  if (!r.speed || r.frames || r.time) return false;
  const SpeedWay way = m.way();
  if (way == SpeedWay::frames) return m.length.has_value();
  return way != SpeedWay::typed && way != SpeedWay::radar;
}

SpeedErrors errors_of(const MeasuredSpeed& speed) {
  return {speed.shared_u(), speed.own_u(), speed.supports_grade};
}

}  // namespace

std::optional<SpeedReading> imagined_reading(const SpeedMethod& m, Speed speed) {
  SpeedReading r;
  const auto apparent = on_video(m, speed);
  if (!apparent) return std::nullopt;
  switch (m.way()) {
  case SpeedWay::frames:
    if (m.length) {
      r.frames = (*m.length * *m.video / *apparent).si();
      return r;
    }
    break;
  case SpeedWay::positions:
    r.frames = imagined_frames_apart;
    r.moved = *apparent / m.positions->video * imagined_frames_apart;
    return r;
  case SpeedWay::gates:
    r.time = m.gates->spacing / speed;
    return r;
  case SpeedWay::radar:
    r.speed = speed * std::cos(m.radar->angle.value_or(defaults::radar_angle).si());
    return r;
  case SpeedWay::sounds: {
    const TwoSounds s = two_sounds(*m.sounds, Time{});
    r.time = m.sounds->path / speed - flight_time(s);
    return r;
  }
  case SpeedWay::typed:
    break;
  }
  r.speed = speed;
  return r;
}

namespace {

/// By the method's own way.
std::optional<MeasuredSpeed> measure_by_way(const SpeedMethod& m, const SpeedReading& r,
                                            Assumptions& assumptions) {
  const auto speed = speed_of(m, r);
  if (!speed) return std::nullopt;
  Measuring measuring(m, assumptions);
  switch (m.way()) {
  case SpeedWay::frames:
    if (r.frames && m.length) return measuring.frames(*r.frames);
    break;
  case SpeedWay::positions:
    return measuring.positions(r);
  case SpeedWay::gates:
    return measuring.gates(r);
  case SpeedWay::radar:
    return measuring.radar(r);
  case SpeedWay::sounds:
    return measuring.sounds(r);
  case SpeedWay::typed:
    break;
  }
  return measuring.typed(*speed);
}

std::optional<MeasuredSpeed> measure_imagined(const SpeedMethod& m, Speed speed,
                                              Assumptions& assumptions) {
  const auto imagined = imagined_reading(m, speed);
  return imagined ? measure_by_way(m, *imagined, assumptions) : std::nullopt;
}

}  // namespace

std::optional<MeasuredSpeed> measure_speed(const SpeedMethod& m, const SpeedReading& r,
                                           Assumptions& assumptions) {
  if (!worked_out(m, r)) return measure_by_way(m, r, assumptions);
  auto like = measure_imagined(m, *r.speed, assumptions);
  if (!like) return std::nullopt;
  like->value = *r.speed;
  std::erase_if(like->terms, [](const SpeedTerm& term) { return !term.shared; });
  return like;
}

FlightAir flight_air(std::optional<Density> stated, std::optional<Length> altitude,
                     std::optional<TemperaturePoint> air) {
  if (stated) return {*stated, Density{}, false};
  if (!altitude) return {defaults::air_density, defaults::air_density_within, true};
  const Density density = air_at(*altitude, air.value_or(standard_temperature(*altitude))).density;
  return {density, density * (air ? weather_half_width : unknown_air_half_width), false};
}

MeasuredSpeed measure_drop(const SpeedMethod& method, Length height,
                           const std::optional<FlyingBall>& ball, const FlightAir& air,
                           Assumptions& assumptions) {
  return Measuring(method, assumptions).drop(height, ball, air);
}

MeasuredSpeed take_setting(Speed nominal, Assumptions& assumptions) {
  MeasuredSpeed speed = speed_by_setting(nominal);
  assumptions.use(DefaultId::nominal_setting, Ratio::from_si(2.0 * speed.standard_u()));
  return speed;
}

Length half_base(const SpeedMethod& m) {
  if (m.way() == SpeedWay::gates) return 0.5 * m.gates->spacing;
  if (m.way() == SpeedWay::sounds) return 0.5 * m.sounds->path;
  return m.length ? 0.5 * *m.length : Length{};
}

SpeedErrors speed_errors(const SpeedMethod& method, Speed speed, Assumptions& assumptions) {
  if (method.by == SpeedSource::setting) return errors_of(take_setting(speed, assumptions));
  if (method.by == SpeedSource::drop) {
    const Length height = Length::from_si(speed.si() * speed.si() / 2.0 / standard_gravity.si());
    const FlightAir air = flight_air(std::nullopt, std::nullopt, std::nullopt);
    return errors_of(measure_drop(method, height, std::nullopt, air, assumptions));
  }
  if (const auto measured = measure_imagined(method, speed, assumptions))
    return errors_of(*measured);
  // A ball that outruns the read-out: what the video would be without it, and no claim on it.
  SpeedMethod plain = method;
  plain.shutter.reset();
  SpeedErrors errors = errors_of(measure_imagined(plain, speed, assumptions).value());
  errors.supports_grade = false;
  return errors;
}

}  // namespace hailwright
