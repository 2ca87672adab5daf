// Records with all that they name, as `hailwright judge` and `write` read them; and logs of data
// loggers by themselves, as `readings` does. An input is a record or a log, then `--- name` and the
// text of each further file: protocol, panels, tables, logs; a column map for a log.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "fuzzed_log.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/evaluate/reader_limit.hpp"
#include "hailwright/input/readers.hpp"
#include "hailwright/report/compose.hpp"
#include "hailwright/report/compose_explanation.hpp"
#include "hailwright/report/render.hpp"
#include "hailwright/report/write_up.hpp"
#include "named_parts.hpp"

namespace {

using namespace hailwright;  // NOLINT(google-build-using-namespace): one file, one program
using fuzzing::NamedParts;

/// What takes longer than reading is done with some inputs, so that many can be tried.
constexpr unsigned judged_with_trials_in = 16;
constexpr unsigned written_up_in = 4;

Assessment judge(const Test& test, bool with_trials) {
  if (!with_trials) return assess(test);
  CheckPlan check;
  check.trials = 20'000;
  check.shortest = true;
  return assess(test, check);
}

void print(const Judged& judged, const SourceSet& sources) {
  Document document = compose_judgement({judged}, sources);
  append_explanation(document, judged, sources);
  static_cast<void>(render_console(document, {}));
}

void write_up(const Judged& judged, const SourceSet& sources) {
  WriteUp made;
  made.judged = {judged};
  made.sources = &sources;
  made.photos.resize(1);
  made.version = "0";
  static_cast<void>(report_json(made));
  const Document document = compose_report(made);
  static_cast<void>(render_html(document));
  static_cast<void>(render_markdown(document, MarkdownStyle{.pictures = true}));
  for (const DataTable& table : report_tables(made))
    static_cast<void>(render_csv(table));
  static_cast<void>(report_workbook(made));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view input = fuzzing::text_of(data, size);
  const NamedParts parts(input, "record.yaml");
  SourceSet sources;
  if (parts.main_text().find("hailwright:") == std::string::npos) {
    fuzzing::read_log(parts, sources);
    return 0;
  }
  const Checked<Test> test =
      read_test(parts.main_name(), parts.loader(), sources, parts.log_opener());
  fuzzing::say(test.notes, sources);
  fuzzing::require(test.value.has_value() != test.notes.has_errors(), "a test, or errors");
  if (!test.value) return 0;
  const Assessment assessment = judge(*test.value, fuzzing::one_in(judged_with_trials_in, input));
  const ReaderLimit limit = answer_reader_limit(assessment, Ratio::from_si(0.02));
  const Judged judged{&*test.value, &assessment, &limit};
  print(judged, sources);
  if (fuzzing::one_in(written_up_in, input)) write_up(judged, sources);
  return 0;
}
