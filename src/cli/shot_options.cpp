#include "cli/shot_options.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string_view>

#include "cli/option_reader.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/metrology/stated.hpp"

namespace hailwright::cli {

namespace {

// Wide enough for whatever somebody calls a ball and a shot, so that all that follows from them can
// be printed [ours].
constexpr Bounds shot_diameters{0.001, 0.2, "from 1 mm to 200 mm"};
constexpr Bounds shot_masses{1e-6, 10.0, "from 0.001 g to 10 kg"};
constexpr Bounds shot_speeds{0.1, 200.0, "from 0.1 m/s to 200 m/s"};

class ShotReader {
public:
  template <class Q>
  std::optional<Q> amount(const std::string& option, const std::string& text) {
    const TextResult<Q> read = read_quantity<Q>(text);
    if (read.value) return read.value;
    notes.error(read.problem->code, {}, "--" + option + ": " + read.problem->message,
                read.problem->hints);
    return std::nullopt;
  }

  /// Value and standard uncertainty; an absent statement is no uncertainty, and the answer says so.
  template <class Q>
  Estimate<Q> estimate(const std::string& option, const StatedOption& stated,
                       const Bounds& bounds) {
    Estimate<Q> e;
    const auto value = amount<Q>(option, stated.value);
    if (!value) return e;
    if (!bounds.holds(value->si())) {
      refuse(option, stated.value, std::string(bounds.words));
      return e;
    }
    e.value = *value;
    if (!stated.accuracy.empty() && !stated.spread.empty()) {
      notes.error("C01", {}, "--" + option + "-accuracy and --" + option + "-spread say two things",
                  {"give the one that you know"});
    } else if (!stated.accuracy.empty()) {
      e.standard_u = size<Q>(option + "-accuracy", stated.accuracy, *value) /
                     half_width_divisor(Shape::rectangular);
    } else if (!stated.spread.empty()) {
      e.standard_u = size<Q>(option + "-spread", stated.spread, *value);
    }
    return e;
  }

  Diagnostics notes;

private:
  template <class Q>
  Q size(const std::string& option, const std::string& text, Q value) {
    if (text.find('%') != std::string::npos) {
      const auto share = amount<Ratio>(option, text);
      return checked_size(option, text, share ? value * share->si() : Q{}, value);
    }
    return checked_size(option, text, amount<Q>(option, text).value_or(Q{}), value);
  }

  template <class Q>
  Q checked_size(const std::string& option, const std::string& text, Q size, Q value) {
    if (size.si() < 0.0 || size.si() > value.si())
      refuse(option, text, "from 0 to 100 % of the value");
    return size;
  }

  void refuse(const std::string& option, const std::string& found, const std::string& wanted) {
    notes.error("R01", {}, "--" + option + " is " + found + ", and must be " + wanted);
  }
};

}  // namespace

Checked<ShotQuestion> read_shot_options(const ShotOptions& o) {
  ShotReader reader;
  ShotQuestion q;
  q.diameter = reader.estimate<Length>("diameter", o.diameter, shot_diameters);
  if (!o.mass.value.empty()) q.mass = reader.estimate<Mass>("mass", o.mass, shot_masses);
  q.speed = reader.estimate<Speed>("speed", o.speed, shot_speeds);
  if (!o.angle.empty()) {
    q.angle = reader.amount<Angle>("angle", o.angle);
    if (q.angle && (q.angle->si() < 0.0 || q.angle->si() >= std::numbers::pi / 2.0)) {
      reader.notes.error("R01", {},
                         "--angle is " + o.angle + ", and must be from 0 to below 90 deg");
    }
  }
  if (o.mass.value.empty() && !(o.mass.accuracy.empty() && o.mass.spread.empty())) {
    reader.notes.error("C01", {}, "an uncertainty of the mass without --mass");
  }
  q.scheme = o.scheme;
  std::vector<std::string> schemes;
  for (const Grade& g : impact_grades()) {
    if (schemes.empty() || schemes.back() != g.scheme) schemes.emplace_back(g.scheme);
  }
  if (std::find(schemes.begin(), schemes.end(), o.scheme) == schemes.end()) {
    std::string list;
    for (const std::string& s : schemes)
      list += (list.empty() ? "" : ", ") + s;
    reader.notes.error("C02", {}, "--scheme '" + o.scheme + "' is not a scheme of the table",
                       {"one of: " + list});
  }
  if (reader.notes.has_errors()) return {std::nullopt, std::move(reader.notes)};
  return {std::move(q), std::move(reader.notes)};
}

}  // namespace hailwright::cli
