#include "cli/shot_options.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string_view>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/metrology/stated.hpp"

namespace hailwright::cli {

namespace {

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
  Estimate<Q> estimate(const std::string& option, const StatedOption& stated) {
    Estimate<Q> e;
    const auto value = amount<Q>(option, stated.value);
    if (!value) return e;
    if (!(value->si() > 0.0)) {
      notes.error("R01", {}, "--" + option + " is " + stated.value + ", and must be above zero");
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
      return checked_size(option, text, share ? value * share->si() : Q{});
    }
    return checked_size(option, text, amount<Q>(option, text).value_or(Q{}));
  }

  template <class Q>
  Q checked_size(const std::string& option, const std::string& text, Q size) {
    if (size.si() < 0.0) {
      notes.error("R01", {}, "--" + option + " is " + text + ", and cannot be below zero");
    }
    return size;
  }
};

}  // namespace

Checked<ShotQuestion> read_shot_options(const ShotOptions& o) {
  ShotReader reader;
  ShotQuestion q;
  q.diameter = reader.estimate<Length>("diameter", o.diameter);
  if (!o.mass.value.empty()) q.mass = reader.estimate<Mass>("mass", o.mass);
  q.speed = reader.estimate<Speed>("speed", o.speed);
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
