#include "report/report_json_parts.hpp"

#include <vector>

#include "hailwright/core/contract.hpp"
#include "report/power_sentences.hpp"
#include "report/report_json_words.hpp"

namespace hailwright::json {

namespace {

/// What one number of a remark is.
struct NumberOfRemark {
  const char* name;
  const char* unit;
};

/// Numbers of a remark in their order, and what they rest on.
struct RemarkForm {
  std::vector<NumberOfRemark> numbers;
  std::string_view source;
};

constexpr std::string_view conditions_method = "method-measuring-conditions";

RemarkForm form_of_bound(const char* unit) {
  return {{{"found", unit}, {"bound", unit}}, conditions_method};
}

RemarkForm form_of(PowerRemark remark) {
  switch (remark) {
  case PowerRemark::battery_full:
    return {{{"fullest", "1"}}, conditions_method};
  case PowerRemark::few_units:
    return {{{"degrees_of_freedom", "1"}}, "method-setup-scatter"};
  case PowerRemark::spread_not_measured:
    return {{{"units", "1"}}, "method-control-and-siblings"};
  case PowerRemark::display_too_coarse:
    return {{{"step", "W"}, {"mean", "W"}}, conditions_method};
  case PowerRemark::sun_display_too_coarse:
    return {{{"step", "W/m2"}, {"mean", "W/m2"}}, conditions_method};
  case PowerRemark::control_moved:
    return {{{"change", "1"}, {"bound", "1"}}, "method-control-and-siblings"};
  case PowerRemark::baseline_moved:
    return {{{"change", "1"}, {"low", "1"}, {"high", "1"}}, "method-interval-and-decision"};
  case PowerRemark::methods_disagree:
    return {{{"low", "1"}, {"high", "1"}}, "method-random-trials"};
  case PowerRemark::not_following_sun:
    return {{{"slope", "1"}}, conditions_method};
  case PowerRemark::low_irradiance:
    return form_of_bound("W/m2");
  case PowerRemark::irradiance_differs:
    return {{{"first", "W/m2"}, {"second", "W/m2"}}, conditions_method};
  case PowerRemark::unsteady_irradiance:
    return form_of_bound("1");
  case PowerRemark::unsteady_temperature:
  case PowerRemark::temperature_differs:
    return form_of_bound("K");
  case PowerRemark::incidence_large:
  case PowerRemark::incidence_changed:
    return form_of_bound("deg");
  case PowerRemark::short_time_in_sun:
  case PowerRemark::soon_after_shots:
    return form_of_bound("min");
  case PowerRemark::variances_differ:
    return {{{"ratio", "1"}}, "method-setup-scatter"};
  case PowerRemark::stated_smaller_than_observed:
    return {{{"stated", "1"}, {"observed", "1"}}, "method-setup-scatter"};
  case PowerRemark::outlying_reading:
    return {{{"deviations", "1"}, {"bound", "1"}}, "method-outlying-readings"};
  case PowerRemark::extended:
    return {{{"looks_taken", "1"}, {"looks_planned", "1"}, {"risk_of_each", "1"}},
            "method-looks-and-extension"};
  case PowerRemark::more_setups_than_planned:
    return {{{"made", "1"}, {"planned", "1"}}, "method-looks-and-extension"};
  case PowerRemark::trend_fitted:
    return {{{"with_line", "1"}, {"without_line", "1"}}, "method-drift"};
  case PowerRemark::fixed_load:
  case PowerRemark::power_gained:
  case PowerRemark::not_clean:
  case PowerRemark::other_leads:
  case PowerRemark::not_pre_exposed:
  case PowerRemark::not_stated:
  case PowerRemark::battery_not_stated:
  case PowerRemark::baseline_not_checked:
  case PowerRemark::other_instrument:
  case PowerRemark::tools_not_said:
    return {{}, conditions_method};
  }
  fail_contract("unknown remark");
}

Json numbers(const PowerNote& note, Ledger& ledger) {
  const RemarkForm form = form_of(note.remark);
  expects(form.numbers.size() == note.numbers.size(), "a remark has the numbers of its kind");
  Json list = Json::array();
  for (std::size_t i = 0; i < form.numbers.size(); ++i) {
    Json number{{"name", form.numbers[i].name}};
    number.update(ledger.computed(note.numbers[i], form.numbers[i].unit, form.source));
    list.push_back(std::move(number));
  }
  return list;
}

}  // namespace

Json notes(const PowerResult& power, const Test& test, Ledger& ledger) {
  Json list = Json::array();
  for (const PowerNote& n : power.notes) {
    const bool outlying = n.remark == PowerRemark::outlying_reading;
    list.push_back({{"remark", word(n.remark)},
                    {"weight", word(weight_of(n.remark))},
                    {"numbers", numbers(n, ledger)},
                    {"subject", words_or_null(n.subject)},
                    {"where", ledger.where(n.where)},
                    {"sentence", outlying ? outlying_sentence(n, test.protocol.measure.compare)
                                          : note_sentence(n)}});
  }
  return list;
}

}  // namespace hailwright::json
