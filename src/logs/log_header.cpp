#include "logs/log_header.hpp"

#include <algorithm>
#include <array>

#include "logs/log_recognise_lines.hpp"

namespace hailwright::detail {

namespace {

constexpr std::array log_measures{Measure::power,      Measure::voltage,     Measure::current,
                                  Measure::irradiance, Measure::temperature, Measure::energy};

/// Units that only loggers use: prefixes that are too easily mistyped to be read anywhere else.
const std::vector<Unit>& units_of_loggers() {
  static const std::vector<Unit> all{{"mW", Measure::power, 1e-3},
                                     {"kW/m2", Measure::irradiance, 1e3},
                                     {"mW/cm2", Measure::irradiance, 10.0}};
  return all;
}

struct Spelling {
  std::string_view written;  ///< without blanks, dots and circumflexes, raised digits on the line
  std::string_view symbol;
};

// How loggers write the units of the table; common practice, no source. Lower case stands for a
// unit only where no other one has the same letters: "mw" could be MW.
constexpr std::array spellings{
    Spelling{"Watt", "W"},          Spelling{"Watts", "W"},      Spelling{"watt", "W"},
    Spelling{"watts", "W"},         Spelling{"kilowatt", "kW"},  Spelling{"kilowatts", "kW"},
    Spelling{"Volt", "V"},          Spelling{"Volts", "V"},      Spelling{"volt", "V"},
    Spelling{"volts", "V"},         Spelling{"Amp", "A"},        Spelling{"Amps", "A"},
    Spelling{"amp", "A"},           Spelling{"amps", "A"},       Spelling{"Ampere", "A"},
    Spelling{"ampere", "A"},        Spelling{"Wm-2", "W/m2"},    Spelling{"wm-2", "W/m2"},
    Spelling{"W/sqm", "W/m2"},      Spelling{"W/qm", "W/m2"},    Spelling{"kWm-2", "kW/m2"},
    Spelling{"mWcm-2", "mW/cm2"},   Spelling{"Wm2", "W/m2"},     Spelling{"Celsius", "degC"},
    Spelling{"celsius", "degC"},    Spelling{"C", "degC"},       Spelling{"\u00BAC", "degC"},
    Spelling{"\u2103", "degC"},     Spelling{"DegC", "degC"},    Spelling{"degreesC", "degC"},
    Spelling{"F", "degF"},          Spelling{"\u2109", "degF"},  Spelling{"Fahrenheit", "degF"},
    Spelling{"fahrenheit", "degF"}, Spelling{"DegF", "degF"},    Spelling{"\u00BAF", "degF"},
    Spelling{"Kelvin", "K"},        Spelling{"kelvin", "K"},     Spelling{"Watthour", "Wh"},
    Spelling{"Watthours", "Wh"},    Spelling{"watthours", "Wh"}, Spelling{"Ws", "J"},
    Spelling{"Joule", "J"},         Spelling{"joule", "J"},
};

constexpr std::array lower_case_spellings{
    Spelling{"w", "W"},       Spelling{"kw", "kW"},     Spelling{"wh", "Wh"},
    Spelling{"kwh", "kWh"},   Spelling{"v", "V"},       Spelling{"mv", "mV"},
    Spelling{"a", "A"},       Spelling{"ma", "mA"},     Spelling{"c", "degC"},
    Spelling{"degc", "degC"}, Spelling{"f", "degF"},    Spelling{"degf", "degF"},
    Spelling{"k", "K"},       Spelling{"w/m2", "W/m2"}, Spelling{"wm2", "W/m2"},
    Spelling{"w_m2", "W/m2"}, Spelling{"j", "J"},       Spelling{"\u00B0c", "degC"},
};

/// Text to take out or to write otherwise, so that one spelling stands for many.
constexpr std::array<std::pair<std::string_view, std::string_view>, 10> plainer{{
    {" ", ""},
    {"\u00A0", ""},
    {"\u202F", ""},
    {"^", ""},
    {"\u00B7", ""},
    {"*", ""},
    {"\u00B2", "2"},
    {"\u207B", "-"},
    {"\u2212", "-"},
    {".", ""},
}};

std::string plain_unit(std::string_view written) {
  std::string text(written);
  for (const auto& [from, to] : plainer) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at))
      text.replace(at, from.size(), to);
  }
  return text;
}

bool has_capitals(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

const Unit* unit_of(std::string_view symbol, Measure measure) {
  for (const Unit& unit : units_of_loggers()) {
    if (unit.symbol == symbol && unit.measure == measure) return &unit;
  }
  return find_unit(symbol, measure);
}

template <std::size_t N>
const Unit* spelt(const std::array<Spelling, N>& table, std::string_view plain, Measure measure) {
  for (const Spelling& spelling : table) {
    if (spelling.written != plain) continue;
    if (const Unit* unit = unit_of(spelling.symbol, measure)) return unit;
  }
  return nullptr;
}

/// "w" and the like, which name a unit only in a header without capitals.
bool only_in_lower_case(std::string_view written) {
  const std::string plain = plain_unit(written);
  return std::any_of(lower_case_spellings.begin(), lower_case_spellings.end(),
                     [&](const Spelling& spelling) { return spelling.written == plain; });
}

/// In brackets anywhere: "Power [W] mean". The last pair that holds a unit.
bool take_bracketed(LogHeader& header) {
  constexpr std::array<std::pair<char, char>, 3> brackets{{{'[', ']'}, {'(', ')'}, {'<', '>'}}};
  for (const auto& [open, close] : brackets) {
    std::size_t end = header.whole.rfind(close);
    while (end != std::string::npos && end > 0) {
      const std::size_t begin = header.whole.rfind(open, end);
      if (begin == std::string::npos) break;
      const std::string inside = trimmed(header.whole.substr(begin + 1, end - begin - 1));
      if (is_logger_unit(inside)) {
        header.unit = inside;
        header.unit_apart = true;
        header.name = trimmed(trimmed(header.whole.substr(0, begin)) + ' ' +
                              trimmed(header.whole.substr(end + 1)));
        return true;
      }
      end = begin == 0 ? std::string::npos : header.whole.rfind(close, begin - 1);
    }
  }
  return false;
}

/// The unit behind the last words of the name; the longest one that is a unit ("W m-2").
bool take_last(LogHeader& header) {
  constexpr std::string_view breaks = " _/,;:-";
  const std::string& whole = header.whole;
  for (std::size_t at = whole.find_first_of(breaks); at != std::string::npos;
       at = whole.find_first_of(breaks, at + 1)) {
    const std::string rest = trimmed(std::string_view(whole).substr(at + 1));
    if (at == 0 || !is_logger_unit(rest)) continue;
    if (has_capitals(whole) && only_in_lower_case(rest)) continue;
    header.unit = rest;
    header.name = trimmed(std::string_view(whole).substr(0, at));
    while (!header.name.empty() && breaks.find(header.name.back()) != std::string_view::npos)
      header.name.pop_back();
    if (header.name.ends_with(" in"))
      header.name = trimmed(header.name.substr(0, header.name.size() - 3));
    return true;
  }
  return false;
}

/// Of "power [MW]" MW, of "power MW" too: a known unit with a prefix that is not read. The whole of
/// what stands in brackets, for it may be any unit.
std::string not_read_in(std::string_view whole) {
  constexpr std::array<std::string_view, 3> brackets{"[]", "()", "<>"};
  for (const std::string_view pair : brackets) {
    const std::size_t end = whole.rfind(pair[1]);
    if (end == std::string_view::npos) continue;
    const std::size_t begin = whole.rfind(pair[0], end);
    if (begin != std::string_view::npos) return trimmed(whole.substr(begin + 1, end - begin - 1));
  }
  const std::size_t last = whole.find_last_of(" _/,;:-");
  if (last == std::string_view::npos || last == 0) return {};
  const std::string_view word = whole.substr(last + 1);
  constexpr std::string_view prefixes = "mkMGuK";
  const bool prefixed = word.size() > 1 && prefixes.find(word.front()) != std::string_view::npos;
  return prefixed && is_logger_unit(word.substr(1)) ? std::string(word) : std::string();
}

}  // namespace

const Unit* logger_unit(std::string_view written, Measure measure) {
  const std::string plain = plain_unit(written);
  if (const Unit* unit = unit_of(plain, measure)) return unit;
  if (const Unit* unit = spelt(spellings, plain, measure)) return unit;
  return has_capitals(plain) ? nullptr : spelt(lower_case_spellings, plain, measure);
}

bool only_loggers_use(const Unit& unit) {
  return find_unit(unit.symbol, unit.measure) == nullptr;
}

bool is_logger_unit(std::string_view written) {
  return std::any_of(log_measures.begin(), log_measures.end(),
                     [&](Measure measure) { return logger_unit(written, measure) != nullptr; });
}

LogHeader read_log_header(std::string_view header, std::string_view below) {
  LogHeader read;
  read.whole = std::string(header);
  read.name = read.whole;
  std::string_view unit = below;
  if (unit.size() >= 2 && (unit.front() == '[' || unit.front() == '('))
    unit = unit.substr(1, unit.size() - 2);
  if (is_logger_unit(unit)) {
    read.unit = trimmed(unit);
    read.unit_apart = true;
    return read;
  }
  if (take_bracketed(read) || take_last(read)) return read;
  read.not_read = unit.empty() ? not_read_in(read.whole) : trimmed(unit);
  return read;
}

}  // namespace hailwright::detail
