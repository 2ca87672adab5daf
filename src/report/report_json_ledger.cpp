#include "report/report_json_ledger.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "hailwright/model/findings.hpp"
#include "hailwright/model/stress.hpp"
#include "hailwright/tables/hailstones.hpp"
#include "hailwright/tables/impact_grades.hpp"
#include "report/method_sources.hpp"
#include "report/report_json_words.hpp"

namespace hailwright::json {

namespace {

struct KnownSource {
  std::string id;
  std::string title;
  std::string read_at;
  ReadStatus status;
  std::string note;
};

template <class Range>
void append(std::vector<KnownSource>& all, const Range& citations) {
  for (const Citation& c : citations)
    all.push_back({std::string(c.id), std::string(c.title), std::string(c.read_at), c.status,
                   std::string(c.note)});
}

std::vector<KnownSource> make_known_sources() {
  std::vector<KnownSource> all;
  append(all, impact_grade_sources());
  append(all, hailstone_sources());
  append(all, finding_sources());
  append(all, stress_sources());
  append(all, method_sources());
  for (const DefaultRow& row : default_rows())
    all.push_back(
        {default_source(row.id),
         "taken where nothing is stated: " + std::string(row.what) + ": " + std::string(row.taken),
         "", row.status, std::string(row.why)});
  return all;
}

const std::vector<KnownSource>& known_sources() {
  static const std::vector<KnownSource> all = make_known_sources();
  return all;
}

bool is_known(std::string_view id) {
  static const std::set<std::string, std::less<>> ids = [] {
    std::set<std::string, std::less<>> known;
    for (const KnownSource& s : known_sources())
      known.insert(s.id);
    return known;
  }();
  return ids.contains(id);
}

}  // namespace

const char* si_unit(Measure measure) {
  switch (measure) {
  case Measure::length:
    return "m";
  case Measure::mass:
    return "kg";
  case Measure::density:
    return "kg/m3";
  case Measure::time:
    return "s";
  case Measure::frame_rate:
    return "1/s";
  case Measure::speed:
    return "m/s";
  case Measure::energy:
    return "J";
  case Measure::power:
    return "W";
  case Measure::irradiance:
    return "W/m2";
  case Measure::pressure:
    return "Pa";
  case Measure::force:
    return "N";
  case Measure::voltage:
    return "V";
  case Measure::current:
    return "A";
  case Measure::resistance:
    return "ohm";
  case Measure::temperature:
  case Measure::temperature_difference:
    return "K";
  case Measure::temperature_coefficient:
    return "1/K";
  case Measure::ratio:
    return "1";
  case Measure::angle:
    return "rad";
  case Measure::volume:
    return "m3";
  }
  fail_contract("unknown measure");
}

std::string default_source(DefaultId id) {
  return "default-" + std::string(word(id));
}

Ledger::Ledger(const WriteUp& write_up) : sources_(write_up.sources) {
  for (const InputCopy& copy : write_up.inputs)
    copies_[copy.name] = copy.path;
}

Json Ledger::where(const SourceSpan& span) const {
  if (sources_ == nullptr || span.file == 0 || span.line == 0) return nullptr;
  const std::string& name = sources_->name(span.file);
  const auto copy = copies_.find(name);
  return {{"file", copy == copies_.end() ? name : copy->second}, {"line", span.line}};
}

std::string Ledger::use(std::string_view id) {
  expects(is_known(id), "a source that is listed");
  if (!used_.contains(id)) used_.emplace(id);
  return std::string(id);
}

Json Ledger::computed(double value, std::string_view unit, SourceIds sources) {
  expects(sources.size() > 0, "a computed number names its source");
  Json j{{"value", finite(value)}, {"unit", unit}};
  Json ids = Json::array();
  for (const std::string_view id : sources)
    ids.push_back(use(id));
  j["sources"] = std::move(ids);
  return j;
}

Json Ledger::estimated(double value, double standard_u, double dof, std::string_view unit,
                       SourceIds sources) {
  const Json plain = computed(value, unit, sources);
  return {{"value", plain["value"]},
          {"unit", plain["unit"]},
          {"standard_uncertainty", finite(standard_u)},
          {"degrees_of_freedom", degrees_of_freedom(dof)},
          {"sources", plain["sources"]}};
}

Json Ledger::stated(double value, std::string_view unit, const SourceSpan& span) const {
  return {{"value", finite(value)}, {"unit", unit}, {"where", where(span)}};
}

Json Ledger::sources() const {
  Json list = Json::array();
  for (const KnownSource& s : known_sources()) {
    if (!used_.contains(s.id)) continue;
    list.push_back({{"id", s.id},
                    {"title", s.title},
                    {"read_at", words_or_null(s.read_at)},
                    {"status", text(s.status)},
                    {"note", words_or_null(s.note)}});
  }
  return list;
}

Json degrees_of_freedom(double value) {
  if (std::isinf(value)) return {{"value", nullptr}, {"word", "unlimited"}};
  return {{"value", finite(value)}};
}

Json words_or_null(const std::string& words) {
  return words.empty() ? Json(nullptr) : Json(words);
}

}  // namespace hailwright::json
