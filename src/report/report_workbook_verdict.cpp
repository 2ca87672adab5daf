// The first sheet of the spreadsheet of a write-up.
#include <fmt/format.h>

#include <set>
#include <utility>

#include "evaluate/panel_thermal.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/caution_items.hpp"
#include "report/judged_stages.hpp"
#include "report/report_tables.hpp"
#include "report/report_workbook.hpp"
#include "report/sentences.hpp"
#include "report/shown_loss.hpp"

namespace hailwright {

namespace {

// Widths of the columns in characters [ours].
constexpr double record_width = 20.0;
constexpr double about_width = 40.0;
constexpr double value_width = 24.0;
constexpr double unit_width = 16.0;
constexpr double remark_width = 90.0;

void add_sentence(std::string& text, const std::string& sentence) {
  text += (text.empty() ? "" : "\n") + sentence;
}

/// Why a series got its word.
std::string why(const Judged& judged, const SeriesVerdict& verdict) {
  const Test& test = *judged.test;
  const Assessment& a = *judged.assessment;
  const SeriesDelivery& delivery = a.delivery[verdict.series];
  std::string text;
  if (verdict.word == Word::not_reached)
    add_sentence(text, delivered_sentence(delivery, verdict, a));
  for (const SeriesReason& reason : verdict.reasons)
    add_sentence(text, reason_sentence(reason, verdict, test, a));
  if (verdict.damage_by) {
    add_sentence(text, damage_sentence(*verdict.damage_by));
    add_sentence(text, delivered_sentence(delivery, verdict, a));
  }
  return text;
}

/// What a reader's limit comes to; nothing where none was asked about.
const LossAnswers* reader_answers(const Judged& judged, const PowerResult& power) {
  for (const JudgedStage& stage : judged_stages(judged)) {
    if (stage.power == &power) return stage.reader;
  }
  return nullptr;
}

std::string of_stage(const std::string& what, const std::string& stage) {
  return fmt::format("{}, {}", what, stage);
}

constexpr const char* assumed = "assumed, not stated";

SheetCell yours(double value, int decimals) {
  SheetCell cell(value, decimals);
  cell.to_change = true;
  return cell;
}

/// Decimals of an amount as it was typed, at least so many.
int typed_decimals(double value, int least) {
  constexpr int most = 6;
  int decimals = least;
  while (decimals < most && read_number(fixed(value, decimals)).value->si != value)
    ++decimals;
  return decimals;
}

}  // namespace

VerdictSheet::VerdictSheet(const WriteUp& write_up, const ReportRows& rows,
                           const TableSheet& comparison)
    : write_up_(write_up), rows_(rows), comparison_(comparison),
      sheet_{"verdict",
             {{record_width}, {about_width}, {value_width}, {unit_width}, {remark_width}},
             {{"record", "about", "value", "unit", "what there is to say"}}} {
  for (std::size_t i = 0; i < write_up.judged.size(); ++i)
    record(i);
  title_.clear();
  cautions();
  about();
}

std::string VerdictSheet::value(std::string about, SheetCell is, std::string unit,
                                std::string remark) {
  sheet_.rows.push_back(
      {title_, std::move(about), std::move(is), std::move(unit), std::move(remark)});
  return fmt::format("'{}'!$C${}", sheet_.name, sheet_.rows.size());
}

void VerdictSheet::say(std::string about, SheetCell remark) {
  sheet_.rows.push_back({title_, std::move(about), "", "", std::move(remark)});
}

void VerdictSheet::record(std::size_t index) {
  const Judged& judged = write_up_.judged[index];
  title_ = judged.test->record.title;
  words(judged);
  bool first = true;
  for (std::size_t row = 0; row < rows_.comparisons.size(); ++row) {
    if (rows_.comparisons[row].record != index) continue;
    losses(row);
    if (std::exchange(first, false)) price(index, row);
  }
  panels(index);
}

void VerdictSheet::words(const Judged& judged) {
  const Test& test = *judged.test;
  SheetCell sentence(headline(test, *judged.assessment));
  sentence.heading = true;
  say("in one line", std::move(sentence));
  for (const SeriesVerdict& verdict : judged.assessment->verdicts) {
    const SeriesPlan& plan = test.protocol.series[verdict.series];
    SheetCell word{std::string(word_text(verdict.word))};
    word.heading = true;
    value(fmt::format("{} ({})", plan.name, target_text(plan.target)), std::move(word), "",
          why(judged, verdict));
  }
}

void VerdictSheet::losses(std::size_t row) {
  const StageRow& compared = rows_.comparisons[row];
  if (compared.power == nullptr) return;
  const PowerResult& p = *compared.power;
  const Judged& judged = write_up_.judged[compared.record];
  const std::string stage = stage_text(p.stage, *judged.test);
  if (!p.estimated()) {
    say(of_stage("power", stage),
        "no comparison: " + obstacle_sentence(p.obstacle, p.obstacle_subject));
    return;
  }
  const auto looked_up = [&](const char* title, Ratio value) {
    return SheetCell(Formula{"=" + comparison_.there(title, row), 100.0 * value.si()},
                     loss_decimals(p));
  };
  const std::string level = level_text(p.estimate.alpha);
  value(of_stage("loss", stage), looked_up(column::loss, p.estimate.loss()), "%");
  value(of_stage("loss, low", stage), looked_up(column::low, p.estimate.low()), "%",
        "lower end of the " + level + " interval");
  value(of_stage("loss, high", stage), looked_up(column::high, p.estimate.high()), "%",
        "upper end of the " + level + " interval");
  value(of_stage("a drop?", stage), real_answer(p), "", "as judged");
  value(of_stage(fmt::format("beyond {}?", limit_text(p.limit)), stage), beyond_answer(p), "",
        "as judged");
  if (const LossAnswers* answers = reader_answers(judged, p)) {
    say(of_stage("a reader's limit", stage),
        reader_limit_sentence(p, judged.reader_limit->limit, *answers));
  }
  value(of_stage("readings", stage),
        Formula{"=" + comparison_.there(readings_kept, row), std::string(readings_as_judged)}, "",
        "whether they are those that the words and U come from");
}

void VerdictSheet::price(std::size_t record, std::size_t comparison_row) {
  const auto& price = write_up_.judged[record].test->record.panel.price;
  if (!price) return;
  constexpr int cents = 2;
  cells_.price[record] =
      value("price: yours to change", yours(price->amount, typed_decimals(price->amount, cents)),
            price->currency);
  const auto* per_watt = comparison_.number(column::per_watt, comparison_row);
  if (per_watt == nullptr) return;
  value("price per measured watt",
        SheetCell(Formula{"=" + comparison_.there(column::per_watt, comparison_row), *per_watt},
                  cents),
        price->currency + "/W", "by the power measured before the shots");
}

void VerdictSheet::panels(std::size_t record) {
  const Test& test = *write_up_.judged[record].test;
  std::set<Role> read;
  for (const Reading& r : test.record.readings)
    read.insert(r.role == Role::control ? Role::control : Role::struck);
  for (const Role role : read) {
    const char* panel = role == Role::control ? "control" : "panel";
    const PanelThermal thermal = panel_thermal(test, role);
    const double percent_per_kelvin =
        number_in(thermal.gamma.si(), *find_unit("%/K", Measure::temperature_coefficient));
    const double kelvin = thermal.cell_above_back.si();
    constexpr int least = 2;
    const std::pair key(record, std::string(panel));
    cells_.coefficient[key] =
        value(fmt::format("temperature coefficient of the {}: yours to change", panel),
              yours(percent_per_kelvin, typed_decimals(percent_per_kelvin, least)), "%/K",
              thermal.gamma_unknown ? assumed : "");
    const std::string taken = thermal.cell_above_back_assumed ? std::string("; ") + assumed : "";
    cells_.cell_above_back[key] =
        value(fmt::format("cells above the sensor of the {}: yours to change", panel),
              yours(kelvin, typed_decimals(kelvin, 1)), "K", "at 1000 W/m2" + taken);
  }
}

void VerdictSheet::cautions() {
  for (const Caution* caution : cautions_of(write_up_.judged)) {
    const CautionItem item = caution_item(*caution);
    say("caution: " + item.title, item.text + "\nSource: " + item.source);
  }
}

void VerdictSheet::about() {
  say("what this is", std::string(closing_sentence(write_up_.judged)));
  say("what follows what",
      "Cells with a border and a tinted ground are yours to change: price, coefficients and "
      "readings. Normalised power, means of set-ups, lambda, loss and price per watt follow. U, "
      "which makes the interval, and all words stay those of the readings as judged; the line "
      "\"readings\" says when these were changed. A changed record is judged anew by the program.");
  say("report", report_id(write_up_));
  say("made by", "hailwright " + write_up_.version);
}

}  // namespace hailwright
