#include <algorithm>
#include <cmath>

#include "hailwright/report/line_up.hpp"
#include "report/json_values.hpp"
#include "report/line_up_columns.hpp"
#include "report/line_up_words.hpp"
#include "report/report_json_parts.hpp"
#include "report/sentences.hpp"

namespace hailwright {

namespace {

using json::Json;
using json::words_or_null;

constexpr int line_up_schema_version = 1;

/// Null where there are endless ones.
Json degrees_or_null(double value) {
  return std::isfinite(value) ? Json(value) : Json(nullptr);
}

std::string_view word_of(Answer answer) {
  switch (answer) {
  case Answer::yes:
    return "yes";
  case Answer::no:
    return "no";
  case Answer::undecided:
    break;
  }
  return "undecided";
}

std::string_view word_of(LineUpGap gap) {
  switch (gap) {
  case LineUpGap::none:
    return "none";
  case LineUpGap::not_compared:
    return "not compared";
  case LineUpGap::obstacle:
    return "obstacle";
  case LineUpGap::not_valid:
    return "not valid";
  case LineUpGap::not_deciding:
    break;
  }
  return "not deciding";
}

/// Of the logarithm of a quantity.
std::string_view unit_of(LineUpQuantity quantity) {
  switch (quantity) {
  case LineUpQuantity::power:
    return "W";
  case LineUpQuantity::power_per_area:
    return "W/m2";
  case LineUpQuantity::power_per_mass:
    return "W/kg";
  case LineUpQuantity::price_per_watt:
    return "currency/W";
  case LineUpQuantity::loss:
  case LineUpQuantity::share_of_rated:
  case LineUpQuantity::shading_loss:
    break;
  }
  return "1";
}

Json price_json(const LineUpEntry& e) {
  if (!e.price) return nullptr;
  const auto amount = [](const std::optional<Money>& money) {
    return money ? Json(json::finite(money->amount)) : Json(nullptr);
  };
  return {{"currency", e.price->currency},
          {"lowest", amount(e.lowest_price)},
          {"price", amount(e.price)},
          {"highest", amount(e.highest_price)}};
}

Json words_json(const LineUpEntry& e) {
  Json list = Json::array();
  for (const LineUpWord& w : e.words) {
    list.push_back({{"kind", w.is_stress ? "stress" : "series"},
                    {"series", w.series},
                    {"target", w.target},
                    {"word", word_text(w.word)},
                    {"places", w.places},
                    {"places_struck", w.places_struck}});
  }
  return list;
}

Json target_json(const LineUpEntry& e, const std::optional<std::size_t>& word) {
  return word ? Json(e.words.at(*word).target) : Json(nullptr);
}

Json traits_json(const std::vector<LineUpTrait>& traits) {
  Json list = Json::array();
  for (const LineUpTrait& trait : traits)
    list.push_back({{"what", trait.what}, {"text", trait.text}});
  return list;
}

Json loss_json(const LineUpEntry& e) {
  if (!e.loss) return nullptr;
  const LossEstimate& loss = *e.loss;
  Json j{{"stage", e.stage},
         {"loss", json::finite(loss.loss().si())},
         {"low", json::finite(loss.low().si())},
         {"high", json::finite(loss.high().si())},
         {"level", 1.0 - 2.0 * loss.alpha},
         {"lambda", json::finite(loss.lambda)},
         {"standard_uncertainty", json::finite(loss.u_lambda)},
         {"degrees_of_freedom", degrees_or_null(loss.degrees_of_freedom)}};
  j["limit"] = e.limit ? Json(e.limit->si()) : Json(nullptr);
  j["smallest_shown"] = e.smallest_shown ? Json(e.smallest_shown->si()) : Json(nullptr);
  j["real"] = e.answers ? Json(word_of(e.answers->real)) : Json(nullptr);
  j["beyond"] = e.answers ? Json(word_of(e.answers->beyond)) : Json(nullptr);
  return j;
}

Json errors_json(const LineUpNumber& number) {
  Json list = Json::array();
  for (const LineUpError& error : number.errors) {
    list.push_back({{"key", words_or_null(error.key)},
                    {"input", words_or_null(error.input)},
                    {"contribution", json::finite(error.contribution)},
                    {"degrees_of_freedom", degrees_or_null(error.degrees_of_freedom)}});
  }
  return list;
}

/// Errors of the number in order alone: of thousands of records they are most of the file.
Json numbers_json(const LineUpEntry& e, LineUpQuantity order) {
  Json list = Json::array();
  for (const auto& [quantity, number] : e.numbers) {
    Json j{{"quantity", word(quantity)},
           {"unit", unit_of(quantity)},
           {"logarithm", json::finite(number.log)},
           {"standard_uncertainty", json::finite(number.standard_u)},
           {"degrees_of_freedom", degrees_or_null(number.degrees_of_freedom)}};
    j["errors"] = quantity == order ? errors_json(number) : Json(nullptr);
    list.push_back(std::move(j));
  }
  return list;
}

Json caution_ids(const LineUpEntry& e) {
  Json ids = Json::array();
  for (const Caution* c : e.cautions)
    ids.push_back(c->id);
  return ids;
}

Json record_json(const LineUpEntry& e, LineUpQuantity order) {
  Json j{{"title", e.title}, {"file", e.path}, {"date", words_or_null(e.date)}};
  j["panel"] = {{"name", e.panel},
                {"serial", words_or_null(e.serial)},
                {"build", words_or_null(e.build)},
                {"connector", words_or_null(e.connector)},
                {"rated_power", json::value(e.rated, "W")},
                {"area", json::value(e.area, "m2")},
                {"weight", json::value(e.weight, "kg")},
                {"lead_length", json::value(e.lead_length, "m")},
                {"price", price_json(e)}};
  j["verdict"] = words_json(e);
  j["hardest_withstood"] = target_json(e, e.hardest_withstood);
  j["mildest_damaged"] = target_json(e, e.mildest_damaged);
  j["traits"] = traits_json(e.traits);
  j["gap"] = {{"kind", word_of(e.gap)}, {"subject", words_or_null(e.gap_text)}};
  j["loss"] = loss_json(e);
  j["shade"] = json::or_null(e.shade);
  j["numbers"] = numbers_json(e, order);
  j["cautions"] = caution_ids(e);
  return j;
}

Json difference_json(const LineUpDifference& d) {
  return {{"first", d.better},
          {"second", d.worse},
          {"difference", json::finite(d.difference)},
          {"standard_uncertainty", json::finite(d.standard_u)},
          {"degrees_of_freedom", degrees_or_null(d.degrees_of_freedom)},
          {"low", json::finite(d.low)},
          {"high", json::finite(d.high)},
          {"p", json::finite(d.p)},
          {"p_adjusted", json::finite(d.p_adjusted)},
          {"shown", d.shown}};
}

Json group_json(const LineUpGroup& group) {
  Json ranks = Json::array();
  Json differences = Json::array();
  for (const LineUpRank& rank : group.ranks)
    ranks.push_back({{"record", rank.entry}, {"first", rank.first}, {"last", rank.last}});
  for (const LineUpDifference& d : group.differences)
    differences.push_back(difference_json(d));
  return {{"traits", traits_json(group.traits)},
          {"each_with_each", group.each_with_each},
          {"ranks", std::move(ranks)},
          {"differences", std::move(differences)}};
}

Json unranked_json(const LineUpView& view, const LineUpUnranked& unranked) {
  return {{"record", unranked.entry},
          {"differs", traits_json(unranked.differs)},
          {"number_missing", unranked.number_missing},
          {"sentence", detail::unranked_sentence(view, unranked)}};
}

}  // namespace

std::string line_up_json(const LineUpView& view) {
  const LineUp& line_up = *view.line_up;
  Json j{{"schema", "hailwright line-up " + std::to_string(line_up_schema_version)},
         {"schema_version", line_up_schema_version},
         {"title", view.title}};
  j["order"] = {{"by", word(line_up.order)}, {"sentence", detail::order_sentence(line_up.order)}};
  j["risk"] = line_up_risk;
  j["records"] = Json::array();
  for (const LineUpEntry& e : *view.entries)
    j["records"].push_back(record_json(e, line_up.order));
  j["groups"] = Json::array();
  for (const LineUpGroup& group : line_up.groups)
    j["groups"].push_back(group_json(group));
  j["unranked"] = Json::array();
  for (const LineUpUnranked& unranked : line_up.unranked)
    j["unranked"].push_back(unranked_json(view, unranked));
  j["cautions"] = json::caution_list(detail::line_up_cautions(*view.entries));
  j["closing"] = closing_sentence();
  return json::dump(j);
}

}  // namespace hailwright
