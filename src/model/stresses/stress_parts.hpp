#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/model/stress.hpp"

/// What the kinds of stress are made of: questions, quantities of what was done, their
/// uncertainties.
namespace hailwright::stresses {

/// Standard acceleration of gravity [m/s2], a convention since 1901 [from memory].
inline constexpr double gravity_mps2 = 9.80665;

/// Part of the planned value by which a measured quantity may be weaker and still count: as for the
/// mass and the speed of a ball [ours].
inline constexpr double usual_tolerance = 0.05;

/// How far off a scale is taken to be where nobody says: half-width, of what it shows [ours].
inline constexpr double usual_scale = 0.02;
/// The key `scale` of what was done, by which that is said.
StressKey scale_key();

/// The amount typed under a key, in SI; nothing where it was not typed.
std::optional<double> typed(const StressValues& values, std::string_view key);
/// One unit of the last decimal typed, in SI; 0 where nothing was typed.
double last_digit(const StressValues& values, std::string_view key);

/// Standard uncertainty of an error that lies anywhere up to this half-width.
double from_half_width(double half_width);
/// Of a reading rounded to this step.
double from_step(double step);
/// Of a time between two readings of a clock of this step.
double from_two_readings(double step);
/// Root of the sum of squares.
double joined(std::initializer_list<double> parts);

/// How long it was held, in minutes or, where less than five are planned, seconds: two readings of
/// a clock to the last digit typed.
StressReached time_reached(std::string label, double planned_s, double done_s, double step_s);
/// A whole number of times: nothing is uncertain about it.
StressReached count_reached(std::string label, double planned, double done);
/// Whether a word is the planned one, as 1 of 1 or 0 of 1.
StressReached word_reached(std::string label, bool as_planned);

/// A question with one good answer among its words, which stands first.
StressQuestion one_word(std::string_view kind, std::string_view key, std::string_view asks,
                        std::vector<std::string_view> words, std::string_view caution);
/// A question to be answered by yes.
StressQuestion by_yes(std::string_view kind, std::string_view key, std::string_view asks,
                      std::string_view caution);
/// A question for an amount that is not to be above a limit [SI], said in words.
StressQuestion at_most(std::string_view kind, std::string_view key, std::string_view asks,
                       std::string_view example, Measure measure, double limit,
                       std::string_view limit_in_words, std::string_view caution);
/// Refused for an installed panel: asked by every kind.
StressQuestion not_installed(std::string_view kind);
/// Where a stressed panel goes: asked by every kind.
StressQuestion goes_after(std::string_view kind);

/// Long side times short side in m2; nothing where the panel's file states no size.
std::optional<double> area_of(const Panel& panel);

}  // namespace hailwright::stresses
