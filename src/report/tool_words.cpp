#include "report/tool_words.hpp"

#include <fmt/format.h>

#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

/// What the sizes of a statement are (JCGM 100:2008, 2.3.1 and 4.3).
const char* shape_text(Shape shape) {
  switch (shape) {
  case Shape::normal:
    return "standard uncertainty";
  case Shape::rectangular:
    return "half-width";
  case Shape::triangular:
    return "half-width, triangular";
  case Shape::arcsine:
    return "half-width, arcsine";
  }
  fail_contract("unknown shape");
}

/// An amount with as many digits as anybody types.
template <Measured Q>
std::string amount_text(Q q, const char* unit) {
  constexpr int decimals = 6;
  const std::string text = in_unit(value_in_si(q), MeasureOf<Q>::value, unit, decimals);
  const std::size_t blank = text.rfind(' ');
  std::string number = text.substr(0, blank);
  number.erase(number.find_last_not_of('0') + 1);
  if (number.ends_with('.')) number.pop_back();
  return number + text.substr(blank);
}

template <Measured Q>
std::string stated_text(const std::optional<Stated<Q>>& stated, const char* unit) {
  if (!stated) return "error not stated";
  std::vector<std::string> parts;
  if (stated->relative.si() > 0.0) {
    parts.push_back(plain_number(stated->relative.si() * 100.0, 4) + " % of the reading");
  }
  if (value_in_si(stated->absolute) > 0.0) parts.push_back(amount_text(stated->absolute, unit));
  if (stated->digits > 0.0) {
    parts.push_back(plain_number(stated->digits, 4) +
                    (stated->digits == 1.0 ? " step of the display" : " steps of the display"));
  }
  if (parts.empty()) return "taken as exact";
  return fmt::format("{} ({})", enumerate(parts), shape_text(stated->shape));
}

std::string named(const std::string& id) {
  return id.empty() ? "" : id + ": ";
}

const char* place_words(SensorPlace place) {
  switch (place) {
  case SensorPlace::back:
    return "on the back";
  case SensorPlace::cell:
    return "at a cell";
  case SensorPlace::front:
    return "on the front";
  }
  fail_contract("unknown place of a sensor");
}

}  // namespace

template <class Q>
std::string tool_text(const Tool<Q>& tool, const char* unit) {
  std::string text = named(tool.id) + stated_text(tool.error, unit);
  if (tool.step) text += "; step " + amount_text(*tool.step, unit);
  return text;
}
template std::string tool_text(const Tool<Power>&, const char*);
template std::string tool_text(const Tool<Irradiance>&, const char*);
template std::string tool_text(const Tool<Mass>&, const char*);
template std::string tool_text(const Tool<Length>&, const char*);

std::string thermometer_text(const Thermometer& t) {
  std::string text = named(t.id) + stated_text(t.error, "K");
  if (t.each_time) text += "; put on or aimed anew " + stated_text(t.each_time, "K");
  if (t.where) text += fmt::format("; {}", place_words(*t.where));
  text += t.infrared ? "; infrared" : "; by contact";
  if (t.one_per_panel) text += "; one for each panel";
  return text;
}

}  // namespace hailwright
