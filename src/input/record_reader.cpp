#include "input/record_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "core/quoted.hpp"
#include "hailwright/model/place_layout.hpp"
#include "input/panel_reader.hpp"
#include "input/protocol_measure.hpp"
#include "input/protocol_reader.hpp"
#include "input/record_checks.hpp"
#include "input/record_curves.hpp"
#include "input/record_energy.hpp"
#include "input/record_logs.hpp"
#include "input/record_looks.hpp"
#include "input/record_shading.hpp"
#include "input/record_siblings.hpp"
#include "input/record_stresses.hpp"
#include "input/record_write_up.hpp"
#include "input/shared_files.hpp"
#include "input/shared_ranges.hpp"
#include "input/side_checks.hpp"
#include "input/table.hpp"
#include "input/table_source.hpp"
#include "input/tools_reader.hpp"

namespace hailwright::input {

namespace {

constexpr KeyList top_keys{
    "the record", "hailwright title protocol planned panel serial label control siblings day "
                  "mounting panel_at_shots setups tables before after sessions stresses shading "
                  "energy curves looks conditions tools_after "
                  "results_seen unlike_protocol incidents disclosure photos write_up"};
constexpr KeyList control_keys{"control", "panel same_model label"};
constexpr KeyList day_keys{"day", "date air air_density weather"};
constexpr KeyList setup_keys{"this set-up", "name date redone remounted battery"};
constexpr KeyList tables_keys{"tables", "balls trials shots readings"};
constexpr KeyList conditions_keys{"conditions",
                                  "clean_and_dry same_leads same_tools pre_exposed in_sun_first "
                                  "incidence incidence_change since_last_shot"};
constexpr KeyList disclosure_keys{"disclosure", "bought_by interests panel_goes"};

// Ranges [ours]: wide enough for anything meant, narrow enough to catch a slip in the unit.
constexpr Range air_density_range{0.5, 1.6, "from 0.5 kg/m3 to 1.6 kg/m3"};
constexpr Range panel_range{213.15, 423.15, "from -60 degC to 150 degC"};
constexpr Range battery_range{0.0, 1.0, "from 0 % to 100 %"};
constexpr Range time_range{0.0, 1e8, "0 s or more"};
constexpr Range angle_range{0.0, 1.5707963267948966, "from 0 deg to 90 deg"};
constexpr int most_results_seen = 20;

/// Reads the parts of a record one after the other; the files it names come first, because the
/// rest is checked against them.
class RecordReader {
public:
  RecordReader(const Document& document, std::string path, const Loader& load,
               const LogOpener& open_log, SourceSet& sources, Diagnostics& notes,
               SharedFiles::Kept* kept = nullptr)
      : map_(document.root, top_keys, document.head(), notes), path_(std::move(path)), load_(load),
        open_log_(open_log), sources_(sources), notes_(notes), shared_(kept, sources, notes) {
    record().origin = document.head();
  }

  Test read() {
    read_plain_keys();
    read_protocol_file();
    panel_fine_ = read_panel_file(map_, record().panel);
    if (record().title.empty()) record().title = record().panel.name;
    read_control();
    read_sibling_panels();
    gather_labels();
    read_setups();
    read_conditions();
    if (const Entry* e = map_.find("tools_after"))
      record().tools_after = read_tools(e->value, e->key_span, notes_);
    read_disclosure();
    read_all_tables();
    Record& r = record();
    const std::size_t before_looks = notes_.items().size();
    if (const std::vector<Node>* looks = map_.list("looks"))
      r.looks = read_looks(*looks, test_.protocol, shots_fine_ ? &r.shots : nullptr, notes_);
    read_stresses();
    if ((shots_fine_ || no_hail()) && !has_errors_since(notes_, before_looks))
      check_look_days(r, test_.protocol, notes_);
    if (readings_fine_) check_sides_of_shots(r, notes_);
    r.shading = read_shading(map_, panel_fine_ ? r.panel.substrings : std::nullopt, notes_);
    r.energy = read_energy(map_, notes_);
    r.curves = read_curves(map_, notes_);
    check_side_measurements(r, panel_fine_, notes_);
    if (protocol_.series_fine && panel_fine_) find_places();
    check_write_up_dates(map_, record(), notes_);
    return std::move(test_);
  }

  [[nodiscard]] bool met_known_error() const { return shared_.met_known_error(); }

private:
  Record& record() { return test_.record; }

  void read_plain_keys() {
    record().title = map_.text("title");
    record().serial = map_.text("serial");
    record().mounting = map_.text("mounting");
    record().panel_at_shots = map_.quantity<TemperaturePoint>("panel_at_shots", panel_range);
    record().panel_label = map_.text("label");
    if (const Entry* label = map_.find("label")) {
      labels_.struck_origin = label->value.span;
    } else {
      record().panel_label = "panel";
    }
    record().results_seen = map_.count("results_seen", 1, most_results_seen);
    record().unlike_protocol = map_.texts("unlike_protocol");
    read_incidents();
    record().photos = read_photos(map_, notes_);
    record().write_up = read_write_up(map_, notes_);
    if (const Entry* e = map_.require("day", "write it as in  day: {date: 2026-06-14}"))
      read_day(*e);
    if (const Entry* e = map_.find("planned")) read_planned(*e);
  }

  void read_incidents() {
    if (map_.find("incidents") == nullptr) return;
    record().incidents = map_.texts("incidents");
    if (record().incidents == std::vector<std::string>{"none"}) record().incidents->clear();
  }

  void read_planned(const Entry& entry) {
    const auto text = read_text(entry.value, "'planned'", notes_);
    if (!text) return;
    const std::vector<std::string> words = words_of(*text);
    const auto mark = words.size() == 2 ? read_plan_mark(words[1]) : std::nullopt;
    if (!mark || !is_iso_date(words[0])) {
      notes_.error("R06", entry.value.span,
                   fmt::format("{} is not the line that `hailwright plan` prints",
                               hailwright::detail::quoted(*text)),
                   {"copy it as it stands, as in  planned: 2026-06-10 7f3a-9c01-52de-0b44",
                    "without a plan kept from before the test, delete the key"});
      return;
    }
    record().planned = PlannedLine{words[0], *mark};
    if (!record().date.empty() && words[0] > record().date) {
      notes_.warning(
          "C30", entry.value.span,
          fmt::format("the plan is dated {}, after the test ({})", words[0], record().date),
          {"only a plan made before the test shows that its rules were set before"});
    }
  }

  void read_day(const Entry& entry) {
    const MapReader day(entry.value, day_keys, entry.key_span, notes_);
    day.require("date", "write year, month and day as in 2026-06-14");
    record().date = day.date("date");
    record().air = day.quantity<TemperaturePoint>("air", air_range);
    record().air_density = day.quantity<Density>("air_density", air_density_range);
    record().weather = day.text("weather");
  }

  std::optional<std::string> path_in(const Entry& entry) {
    const auto text = read_text(entry.value, fmt::format("'{}'", entry.key), notes_);
    return text ? std::optional(path_beside(path_, *text)) : std::nullopt;
  }

  void read_protocol_file() {
    const Entry* entry = map_.require("protocol", "name the file of the protocol");
    if (entry == nullptr) return;
    const auto path = path_in(*entry);
    if (!path) return;
    auto read = shared_.protocol(*path, [&]() -> std::optional<ProtocolRead> {
      const auto document =
          open_document(*path, FileKind::protocol, entry->value.span, load_, sources_, notes_);
      return document ? std::optional(read_protocol(*document, notes_)) : std::nullopt;
    });
    if (!read) return;
    protocol_ = std::move(*read);
    // Series with errors would raise false complaints about the record that names them.
    test_.protocol = protocol_.protocol;
    if (protocol_.series_fine) return;
    test_.protocol.series.clear();
    test_.protocol.stresses.clear();
  }

  /// Whether the protocol is known to throw nothing.
  [[nodiscard]] bool no_hail() const {
    return protocol_.series_fine && test_.protocol.series.empty();
  }

  void read_stresses() {
    const std::size_t before = notes_.items().size();
    record().stresses = read_stresses_done(map_, test_.protocol, protocol_.series_fine, notes_);
    if (!has_errors_since(notes_, before))
      check_stages_of_stresses(record(), test_.protocol, notes_);
  }

  bool read_panel_file(const MapReader& map, Panel& panel) {
    const Entry* entry = map.require("panel", "name the file of the panel");
    if (entry == nullptr) return false;
    const auto path = path_in(*entry);
    if (!path) return false;
    auto read = shared_.panel(*path, [&]() -> std::optional<PanelRead> {
      const auto document =
          open_document(*path, FileKind::panel, entry->value.span, load_, sources_, notes_);
      if (!document) return std::nullopt;
      const std::size_t before = notes_.items().size();
      Panel found = input::read_panel(*document, notes_);
      return PanelRead{std::move(found),
                       !has_errors_since(notes_, before) && !has_gaps(document->root)};
    });
    if (!read) return false;
    panel = std::move(read->panel);
    return read->fine;
  }

  /// Positions of the places, for hits that were written down by where they landed. After the
  /// tables: what they say of a place is held against the positions that the protocol gives.
  void find_places() {
    const auto layout = shared_.layout(*path_in(*map_.find("protocol")), test_.protocol,
                                       *path_in(*map_.find("panel")), record().panel);
    if (layout) take_positions(*layout, test_.protocol);
  }

  [[nodiscard]] bool compares(Comparison comparison) const {
    return test_.protocol.measure.compare == comparison;
  }

  /// What the record gives and the protocol has no use for.
  void report_not_compared(std::string_view key, std::string_view panels, std::string_view word) {
    notes_
        .error("C10", map_.at(key), fmt::format("the protocol does not compare with {}", panels),
               {fmt::format("delete '{}', or write  compare: {}  in the protocol", key, word)})
        .related.push_back({test_.protocol.measure.origin, "the protocol's measurement"});
  }

  void read_control() {
    const bool expected = compares(Comparison::control_panel);
    const Entry* entry = map_.find("control");
    if (entry == nullptr) {
      if (protocol_.measure_fine && expected) {
        map_.require("control", "the protocol compares with a control panel: write  control: "
                                "{panel: panels/c.yaml, same_model: yes, label: C}");
      }
      return;
    }
    const MapReader control(entry->value, control_keys, entry->key_span, notes_);
    record().control.emplace();
    read_panel_file(control, *record().control);
    record().control_same_model = control.flag("same_model").value_or(false);
    record().control_label = control.find("label") != nullptr ? control.text("label") : "control";
    if (const Entry* label = control.find("label")) labels_.control_origin = label->value.span;
    if (protocol_.measure_fine && !expected)
      report_not_compared("control", "a control panel", "control-panel");
  }

  void read_sibling_panels() {
    const bool expected = compares(Comparison::sibling_panel);
    if (map_.find("siblings") == nullptr) {
      if (protocol_.measure_fine && expected) {
        map_.require("siblings", "the protocol compares with unstruck units: write  siblings: "
                                 "[{label: D}, {label: E}, {label: F}]");
      }
      return;
    }
    record().siblings = read_siblings(map_, notes_);
    if (protocol_.measure_fine && !expected)
      report_not_compared("siblings", "sibling panels", "sibling-panel");
  }

  /// How the tables call the panels, each by a label of its own.
  void gather_labels() {
    labels_.struck = record().panel_label;
    labels_.control = record().control_label;
    const auto place = [&](SourceSpan label, std::string_view key) {
      return label.line > 0 ? label : map_.at(key);
    };
    std::vector<PanelLabel> all{{labels_.struck, place(labels_.struck_origin, "label")}};
    if (record().control)
      all.push_back({labels_.control, place(labels_.control_origin, "control")});
    for (const Sibling& sibling : record().siblings)
      all.push_back({sibling.label, sibling.origin});
    // Labels of two panels would raise false complaints about the tables.
    if (!check_labels_differ(all, notes_)) return;
    labels_.control_expected = compares(Comparison::control_panel);
    if (compares(Comparison::sibling_panel)) labels_.siblings = record().siblings;
  }

  void read_setups() {
    const std::vector<Node>* items = map_.list("setups");
    if (items == nullptr) return;
    for (const Node& item : *items) {
      const MapReader map(item, setup_keys, item.span, notes_);
      const Entry* name = map.require("name", "write it as in  name: before 1");
      Setup setup;
      setup.date = map.date("date");
      dated_at_ = setup.date.empty() ? std::nullopt : std::optional(map.at("date"));
      if (setup.date.empty()) setup.date = record().date;
      setup.redone = read_redone(map, "redone");
      read_remounted(map, setup);
      setup.battery = map.quantity<Ratio>("battery", battery_range);
      if (name != nullptr) add_setup(map.text("name"), name->value.span, std::move(setup));
    }
  }

  void read_remounted(const MapReader& map, Setup& setup) {
    const auto remounted = map.flag("remounted");
    const Entry* redone = map.find("redone");
    if (remounted && redone != nullptr) {
      notes_
          .error("C01", map.at("remounted"), "'redone' and 'remounted' both say what was done anew",
                 {"keep one of the two: remounted: yes stands for all four steps"})
          .related.push_back({redone->key_span, "said here too"});
      return;
    }
    if (remounted && *remounted) setup.redone.emplace(all_redone.begin(), all_redone.end());
  }

  void add_setup(const std::string& name, SourceSpan origin, Setup setup) {
    if (name.empty() || !protocol_.series_fine) return;
    const auto stage = read_setup_name(name, origin, test_.protocol, notes_);
    if (!stage) return;
    setup.origin = origin;
    setup.name = name;
    setup.stage = stage->first;
    setup.number = stage->second;
    const auto same =
        std::find_if(record().setups.begin(), record().setups.end(), [&](const Setup& other) {
          return other.stage == setup.stage && other.number == setup.number;
        });
    if (same != record().setups.end()) {
      notes_
          .error(
              "C05", origin,
              fmt::format("set-up {} stands here a second time", hailwright::detail::quoted(name)),
              {"keep one of the two"})
          .related.push_back({same->origin, "first given here"});
      return;
    }
    record().setups.push_back(std::move(setup));
    listed_dates_.push_back(dated_at_);
  }

  void read_conditions() {
    const Entry* entry = map_.find("conditions");
    if (entry == nullptr) return;
    const MapReader map(entry->value, conditions_keys, entry->key_span, notes_);
    Conditions& conditions = record().conditions;
    conditions.origin = entry->key_span;
    conditions.clean_and_dry = map.flag("clean_and_dry");
    conditions.same_leads = map.flag("same_leads");
    conditions.same_tools = map.flag("same_tools");
    conditions.pre_exposed = map.flag("pre_exposed");
    conditions.in_sun_first = map.quantity<Time>("in_sun_first", time_range);
    conditions.incidence = map.quantity<Angle>("incidence", angle_range);
    conditions.incidence_change = map.quantity<Angle>("incidence_change", angle_range);
    conditions.since_last_shot = map.quantity<Time>("since_last_shot", time_range);
  }

  void read_disclosure() {
    const Entry* entry = map_.find("disclosure");
    if (entry == nullptr) return;
    const MapReader map(entry->value, disclosure_keys, entry->key_span, notes_);
    record().disclosure =
        Disclosure{map.text("bought_by"), map.text("interests"), map.text("panel_goes")};
  }

  std::optional<TableSource> table(const Entry& entry) {
    return read_table_source(entry, path_, load_, sources_, notes_);
  }

  /// Without shots there need be no table: all readings may stand in logs.
  void read_all_tables() {
    const Entry* entry =
        no_hail() ? map_.find("tables")
                  : map_.require("tables", "name the tables, as in  tables: {shots: shots.csv}");
    if (entry != nullptr) {
      read_tables(*entry);
    } else if (no_hail()) {
      read_all_readings(nullptr);
    }
  }

  void read_tables(const Entry& entry) {
    const MapReader map(entry.value, tables_keys, entry.key_span, notes_);
    RecordPlaces places;
    places.tables = entry.key_span;
    const std::size_t before = notes_.items().size();
    if (no_hail()) {
      if (!report_thrown(map, test_.protocol.origin, notes_)) read_all_readings(&map);
      return;
    }
    if (const Entry* e = map.find("balls")) {
      places.balls = e->key_span;
      if (const auto source = table(*e)) record().balls = read_balls(*source, notes_);
    }
    if (const Entry* e = map.find("trials")) {
      places.trials = e->key_span;
      if (const auto source = table(*e)) record().trials = read_trials(*source, notes_);
    }
    const Entry* shots = map.require("shots", "name the table of shots: shots: shots.csv");
    if (shots != nullptr) read_shot_table(*shots);
    const bool fine = !has_errors_since(notes_, before);
    read_all_readings(&map);
    readings_fine_ = !has_errors_since(notes_, before);
    if (readings_fine_) check_setups_whole(record(), notes_);
    if (!fine || !protocol_.series_fine || !protocol_.speed_fine) return;
    check_trials(test_, places, notes_);
    check_balls(test_, places, notes_);
  }

  void read_shot_table(const Entry& entry) {
    const auto source = table(entry);
    if (!source || !protocol_.series_fine || !protocol_.speed_fine || !panel_fine_) return;
    const std::size_t before = notes_.items().size();
    record().shots = read_shots(*source, test_.protocol, record().panel, labels_, notes_);
    shots_fine_ = !has_errors_since(notes_, before);
  }

  /// Those of the logs, then those of the table; what concerns set-ups needs both.
  void read_all_readings(const MapReader* tables) {
    std::vector<SetupRows> rows(record().setups.size());
    const bool fine = protocol_.series_fine && protocol_.measure_fine;
    read_record_logs(map_, {path_, load_, open_log_, sources_}, test_.protocol, fine,
                     {record(), rows, listed_dates_, labels_.control_expected}, notes_);
    if (const Entry* e = tables == nullptr ? nullptr : tables->find("readings")) {
      const auto source = table(*e);
      if (source && fine) read_reading_table(*source, rows);
    } else if (!record().logs.empty()) {
      check_setups(record().setups, rows, labels_, record().date, notes_);
    }
  }

  void read_reading_table(const TableSource& source, const std::vector<SetupRows>& of_logs) {
    std::vector<Reading> readings = read_readings(source, test_.protocol, labels_, record().date,
                                                  record().setups, of_logs, notes_);
    std::move(readings.begin(), readings.end(), std::back_inserter(record().readings));
  }

  MapReader map_;
  std::string path_;
  const Loader& load_;
  const LogOpener& open_log_;
  SourceSet& sources_;
  Diagnostics& notes_;
  SharedReading shared_;
  ProtocolRead protocol_;
  bool panel_fine_ = false;
  bool shots_fine_ = false;
  bool readings_fine_ = false;  ///< with all tables before them
  TableLabels labels_{"", "", {}, {}, false};
  std::optional<SourceSpan> dated_at_;  ///< of the set-up that is being read
  ListedDates listed_dates_;
  Test test_;
};

}  // namespace

Test read_record(const Document& document, const std::string& path, const Loader& load,
                 SourceSet& sources, Diagnostics& notes, const LogOpener& open_log) {
  return RecordReader(document, path, load, open_log, sources, notes).read();
}

const std::vector<KeyList>& record_keys() {
  static const std::vector<KeyList> lists = [] {
    std::vector<KeyList> all{top_keys,         control_keys,    sibling_keys, day_keys,
                             setup_keys,       tables_keys,     look_keys,    finding_keys,
                             conditions_keys,  tools_keys,      tool_keys,    sizing_tool_keys,
                             thermometer_keys, disclosure_keys, photo_keys,   write_up_keys,
                             log_keys,         log_setup_keys,  steady_keys,  plateau_keys,
                             session_log_keys, session_keys};
    const std::vector<KeyList> stresses = stress_done_key_lists();
    all.insert(all.end(), stresses.begin(), stresses.end());
    all.insert(all.end(), {curves_keys, voltmeter_keys, ammeter_keys, curve_reading_keys});
    all.insert(all.end(),
               {shade_keys, shade_round_keys, sun_shade_keys, back_shade_keys, open_shade_keys,
                energy_keys, sun_ends_keys, back_ends_keys, energy_beside_keys});
    return all;
  }();
  return lists;
}

}  // namespace hailwright::input

namespace hailwright {

Checked<Test> read_test(const std::string& path, const Loader& load, SourceSet& sources,
                        const LogOpener& open_log, SharedFiles* shared) {
  Checked<Test> result;
  const auto document =
      input::open_document(path, FileKind::record, std::nullopt, load, sources, result.notes);
  if (!document) return result;
  input::RecordReader reader(*document, path, load, open_log, sources, result.notes,
                             shared == nullptr ? nullptr : &shared->kept());
  Test test = reader.read();
  if (!result.notes.has_errors() && !reader.met_known_error()) result.value = std::move(test);
  return result;
}

}  // namespace hailwright
