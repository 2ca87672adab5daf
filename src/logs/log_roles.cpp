// Which columns of a log are likely what, by the words of headers, by units and by cells.
#include "logs/log_roles.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

#include "logs/log_stamp.hpp"

namespace hailwright::detail {

namespace {

// Words of headers, in lower case, as loggers and their users write them in several languages of
// Europe; common practice, no source. A header needs one of them, or a unit that stands apart.
struct RoleWords {
  LogRole role;
  std::vector<std::string_view> words;
};

const std::vector<RoleWords>& role_words() {
  static const std::vector<RoleWords> all{
      {LogRole::power,
       {"power", "pwr", "watt", "watts", "p", "pdc", "ppv", "leistung", "puissance", "potencia",
        "potência", "potenza", "vermogen", "moc", "effekt", "teho", "výkon", "wattage"}},
      {LogRole::voltage, {"voltage",  "volt",     "volts",    "u",        "v",        "udc",
                          "vdc",      "upv",      "vpv",      "spannung", "tension",  "tensión",
                          "tensão",   "tensione", "voltaje",  "spanning", "napięcie", "napětí",
                          "spænding", "spenning", "spänning", "jännite"}},
      {LogRole::current,
       {"current", "amp", "amps", "ampere", "i", "idc", "ipv", "strom", "stromstärke", "courant",
        "intensité", "corriente", "corrente", "stroom", "prąd", "proud", "strøm", "ström",
        "virta"}},
      {LogRole::irradiance,
       {"irradiance",
        "irradiation",
        "insolation",
        "g",
        "gpoa",
        "poa",
        "gti",
        "pyranometer",
        "solarimeter",
        "sun",
        "einstrahlung",
        "bestrahlungsstärke",
        "globalstrahlung",
        "strahlung",
        "éclairement",
        "ensoleillement",
        "irradiancia",
        "irradiância",
        "irradianza",
        "irraggiamento",
        "instraling",
        "natężenie",
        "innstråling",
        "instrålning",
        "säteily"}},
      {LogRole::temperature,
       {"temperature", "temp", "t", "tmod", "tpanel", "tcell", "tback", "temperatur", "température",
        "temperatura", "temperatuur", "teplota", "lämpötila", "modultemperatur"}},
      {LogRole::energy,
       {"energy", "yield", "counter", "energie", "énergie", "energía", "energia", "ertrag",
        "zähler", "opbrengst", "energi", "produktion", "production", "wh", "kwh"}},
      {LogRole::marker, {"marker", "mark", "event", "label", "setup", "session"}},
  };
  return all;
}

// What degrees are the panel's.
constexpr auto panel_words = std::to_array<std::string_view>(
    {"panel", "module", "modul", "cell", "back", "zelle", "rückseite", "panneau", "módulo"});

// Things beside the panel, and what is no reading of one moment: never proposed.
constexpr auto elsewhere = std::to_array<std::string_view>(
    {"battery",  "batt",    "bat",    "akku",   "batterie", "bateria", "batería",  "ac",
     "grid",     "netz",    "load",   "last",   "ambient",  "air",     "outdoor",  "outside",
     "umgebung", "luft",    "aussen", "außen",  "inverter", "device",  "internal", "board",
     "heatsink", "min",     "max",    "std",    "sd",       "stdev",   "peak",     "setpoint",
     "limit",    "diffuse", "diffus", "factor", "ratio",    "status",  "wind",     "apparent"});

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// The letters of a header that stand together, in lower case. Letters beyond ASCII stay as they
/// are, but for the few capitals that begin one of the words above.
std::vector<std::string> words_of(std::string_view name) {
  std::vector<std::string> words(1);
  for (const char c : name) {
    const bool letter =
        (lower(c) >= 'a' && lower(c) <= 'z') || static_cast<unsigned char>(c) >= 0x80U;
    if (letter) {
      words.back() += lower(c);
    } else if (!words.back().empty()) {
      words.emplace_back();
    }
  }
  if (words.back().empty()) words.pop_back();
  for (std::string& word : words) {
    if (word.starts_with("É")) word.replace(0, std::string_view("É").size(), "é");
  }
  return words;
}

bool has_any(const std::vector<std::string>& words, const auto& known) {
  return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
    return std::find(known.begin(), known.end(), word) != known.end();
  });
}

/// "power beside" and "Power_beside" are the role's word.
bool is_word_of(LogRole role, const std::vector<std::string>& words) {
  return fmt::format("{}", fmt::join(words, "_")) == word_of(role);
}

std::string why_numbers(const LogHeader& header, bool named, const Unit* unit) {
  if (unit == nullptr) return "by its name; the unit is missing";
  if (!named) return fmt::format("the header says {}", header.unit);
  return fmt::format("by its name; the header says {}", header.unit);
}

std::optional<RoleCandidate> numbers_candidate(LogRole role, const LogHeader& header,
                                               const std::vector<std::string>& words) {
  const Measure measure = *measure_of(role);
  RoleCandidate candidate;
  candidate.role = role;
  candidate.unit = header.unit.empty() ? nullptr : logger_unit(header.unit, measure);
  candidate.exact = is_word_of(role, words);
  if (!header.unit.empty() && candidate.unit == nullptr) return std::nullopt;
  const bool beside = role == LogRole::power_beside || role == LogRole::temperature_beside;
  const auto known = std::find_if(role_words().begin(), role_words().end(),
                                  [&](const RoleWords& each) { return each.role == role; });
  const bool named = known != role_words().end() && has_any(words, known->words);
  // Degrees alone may be those of anything.
  const bool whose = role != LogRole::temperature || has_any(words, panel_words);
  const bool by_unit = candidate.unit != nullptr && header.unit_apart && !beside && whose;
  if (!candidate.exact && !named && !by_unit) return std::nullopt;
  candidate.why = why_numbers(header, named || candidate.exact, candidate.unit);
  return candidate;
}

constexpr std::array number_roles{
    LogRole::power,       LogRole::voltage, LogRole::current,      LogRole::irradiance,
    LogRole::temperature, LogRole::energy,  LogRole::power_beside, LogRole::temperature_beside};

/// What most of a column's first cells hold.
CellKind column_kind(const LogLayout& layout, std::size_t column) {
  constexpr std::size_t looked_at = 20;
  std::array<std::size_t, 7> counts{};
  const std::size_t rows = std::min(layout.rows.size(), looked_at);
  for (std::size_t i = 0; i < rows; ++i)
    ++counts.at(static_cast<std::size_t>(kind_of(layout.rows[i].cells[column].text)));
  counts[static_cast<std::size_t>(CellKind::blank)] = 0;
  const auto most = std::max_element(counts.begin(), counts.end());
  return *most == 0 ? CellKind::blank : static_cast<CellKind>(most - counts.begin());
}

constexpr auto time_words = std::to_array<std::string_view>(
    {"time",      "timestamp",  "datetime", "date", "zeit", "zeitstempel", "uhrzeit", "datum",
     "heure",     "horodatage", "fecha",    "hora", "ora",  "tijd",        "czas",    "tid",
     "tidspunkt", "čas",        "epoch",    "unix", "ts",   "aika",        "tmstamp"});

/// Ten or thirteen digits are a time only where the header says so: a serial number has them too.
bool unix_times(const LogLayout& layout, std::size_t column,
                const std::vector<std::string>& words) {
  if (!has_any(words, time_words)) return false;
  const auto good = std::count_if(layout.rows.begin(), layout.rows.end(), [&](const HeadRow& row) {
    return glance_at_stamp(row.cells[column].text, std::nullopt).has_value();
  });
  return 2 * static_cast<std::size_t>(good) > layout.rows.size();
}

std::optional<RoleCandidate> time_candidate(const LogLayout& layout, std::size_t column,
                                            const std::vector<std::string>& words) {
  RoleCandidate candidate;
  switch (column_kind(layout, column)) {
  case CellKind::stamp:
    candidate.role = LogRole::time;
    candidate.why = "its cells are dates with a time of day";
    break;
  case CellKind::date:
    candidate.role = LogRole::date;
    candidate.why = "its cells are dates";
    break;
  case CellKind::clock:
    candidate.role = LogRole::clock;
    candidate.why = "its cells are times of day";
    break;
  case CellKind::number:
    if (!unix_times(layout, column, words)) return std::nullopt;
    candidate.role = LogRole::time;
    candidate.why = "its cells are Unix times";
    break;
  default:
    return std::nullopt;
  }
  candidate.exact = is_word_of(candidate.role, words);
  return candidate;
}

void add_candidates(const LogLayout& layout, std::size_t column, std::vector<RoleCandidate>& all) {
  const LogHeader& header = layout.headers[column];
  const std::vector<std::string> words = words_of(header.name);
  if (auto time = time_candidate(layout, column, words)) {
    time->column = column;
    all.push_back(std::move(*time));
    return;
  }
  if (has_any(words, elsewhere)) return;
  const std::size_t before = all.size();
  for (const LogRole role : number_roles) {
    if (auto numbers = numbers_candidate(role, header, words)) all.push_back(std::move(*numbers));
  }
  const std::vector<std::string_view>& marks = role_words().back().words;
  if (all.size() == before && header.unit.empty() && has_any(words, marks)) {
    all.push_back({LogRole::marker, 0, nullptr, is_word_of(LogRole::marker, words), "by its name"});
  }
  // "power beside" is also named "power": what is exactly named is nothing else.
  const auto exact = std::find_if(all.begin() + static_cast<std::ptrdiff_t>(before), all.end(),
                                  [](const RoleCandidate& each) { return each.exact; });
  if (exact != all.end()) {
    const RoleCandidate kept = *exact;
    all.resize(before);
    all.push_back(kept);
  }
  for (std::size_t i = before; i < all.size(); ++i)
    all[i].column = column;
}

}  // namespace

std::vector<RoleCandidate> candidates_for(LogRole role, const std::vector<RoleCandidate>& all) {
  std::vector<RoleCandidate> found;
  for (const RoleCandidate& candidate : all) {
    if (candidate.role == role) found.push_back(candidate);
  }
  return found;
}

std::vector<RoleCandidate> role_candidates(const LogLayout& layout) {
  std::vector<RoleCandidate> all;
  for (std::size_t column = 0; column < layout.headers.size(); ++column)
    add_candidates(layout, column, all);
  std::vector<RoleCandidate> kept;
  for (const RoleCandidate& candidate : all) {
    const bool outdone =
        !candidate.exact && std::any_of(all.begin(), all.end(), [&](const RoleCandidate& other) {
          return other.role == candidate.role && other.exact;
        });
    if (!outdone) kept.push_back(candidate);
  }
  return kept;
}

}  // namespace hailwright::detail
