#include "report/report_json_words.hpp"

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

#include "hailwright/core/citation.hpp"
#include "hailwright/model/place_kind.hpp"
#include "hailwright/safety/cautions.hpp"
#include "hailwright/tables/impact_grades.hpp"
#include "report/sentences.hpp"
#include "support/catch.hpp"
#include "support/json_report.hpp"

using namespace hailwright;
using hailwright::json::word;
using hailwright::testing::report_schema;

namespace {

using Words = std::vector<std::string>;

/// The words of a closed list, each of which says what it means.
Words listed(const char* name) {
  Words words;
  for (const auto& one : report_schema()["$defs"].at(name).at("oneOf")) {
    words.push_back(one.at("const"));
    CHECK_FALSE(one.at("description").get<std::string>().empty());
  }
  return words;
}

/// The words of an enumeration from its first value to the last one. That none comes after `last`
/// is for the compiler to see: the words are made by a switch without default.
template <class Enum, class Word>
Words all_words(Enum last, Word of) {
  Words words;
  for (int i = 0; i <= static_cast<int>(last); ++i)
    words.emplace_back(of(static_cast<Enum>(i)));
  CHECK_THROWS(of(static_cast<Enum>(static_cast<int>(last) + 1)));
  return words;
}

template <class Enum>
Words all_words(Enum last) {
  return all_words(last, [](Enum value) { return word(value); });
}

}  // namespace

TEST_CASE("report json: the lists of words about delivery and looks are those of the schema") {
  CHECK(all_words(Word::not_reached, word_text) == listed("word"));
  CHECK(all_words(DamageBy::below_grade) == listed("damage_by"));
  CHECK(all_words(Reason::power_within) == listed("reason"));
  CHECK(all_words(StrengthDoubt::diameter_off) == listed("doubt"));
  CHECK(all_words(Landing::at) == listed("landing"));
  CHECK(all_words(Gravity::by_share) == listed("gravity"));
  CHECK(all_words(Projectile::polyamide, [](Projectile p) { return text(p); }) ==
        listed("projectile"));
  CHECK(all_words(FieldStatus::not_printed, [](FieldStatus s) { return text(s); }) ==
        listed("field_status"));
  CHECK(all_words(PlaceKind::named, [](PlaceKind k) { return text(k); }) == listed("place_kind"));
}

TEST_CASE("report json: the lists of words about power are those of the schema") {
  CHECK(all_words(StageKind::baseline) == listed("stage_kind"));
  CHECK(all_words(Role::sibling) == listed("role"));
  CHECK(all_words(Answer::undecided) == listed("answer"));
  CHECK(all_words(PowerObstacle::trend_needs_setups) == listed("obstacle"));
  CHECK(all_words(PowerRemark::trend_fitted) == listed("remark"));
  CHECK(all_words(RemarkWeight::no_verdict) == listed("remark_weight"));
  CHECK(all_words(Scope::record) == listed("scope"));
  CHECK(all_words(Evaluation::type_b) == listed("evaluation"));
  CHECK(all_words(Shape::arcsine) == listed("shape"));
}

TEST_CASE("report json: the lists of words about the plan are those of the schema") {
  CHECK(all_words(Comparison::sibling_panel) == listed("compare"));
  CHECK(all_words(MaximumPower::fixed_load) == listed("maximum_power"));
  CHECK(all_words(Redone::leads) == listed("redone"));
  CHECK(all_words(Launcher::other) == listed("launcher"));
  CHECK(all_words(SpeedSource::setting) == listed("speed_by"));
  CHECK(all_words(SpeedWay::sounds) == listed("speed_way"));
  CHECK(all_words(SensorPlace::front) == listed("sensor_place"));
  CHECK(all_words(Build::flexible) == listed("build"));
}

TEST_CASE("report json: the lists of words about sources are those of the schema") {
  CHECK(all_words(ReadStatus::ours, [](ReadStatus s) { return text(s); }) == listed("status"));
  CHECK(all_words(CautionGroup::afterwards, [](CautionGroup g) { return text(g); }) ==
        listed("caution_group"));
  CHECK(all_words(DefaultId::display_step) == listed("default_id"));
}

TEST_CASE("report json: a default is explained in the schema by the words of its row") {
  const auto& list = report_schema()["$defs"]["default_id"]["oneOf"];
  for (const DefaultRow& row : default_rows()) {
    CAPTURE(row.what);
    const auto one = std::find_if(list.begin(), list.end(),
                                  [&](const auto& w) { return w["const"] == word(row.id); });
    REQUIRE(one != list.end());
    CHECK((*one)["description"] == std::string(row.what) + ": " + std::string(row.taken) + ".");
  }
}

TEST_CASE("report json: no object of the schema takes keys that it does not name") {
  int objects = 0;
  const std::function<void(const nlohmann::json&)> visit = [&](const nlohmann::json& node) {
    if (node.is_object() && node.contains("properties") && !node.contains("$ref")) {
      ++objects;
      CHECK(node.at("additionalProperties") == false);
      for (const auto& key : node.at("required"))
        CHECK(node["properties"].contains(key.get<std::string>()));
    }
    for (const auto& part : node)
      if (part.is_structured()) visit(part);
  };
  visit(report_schema());
  CHECK(objects > 60);
}
