#include "cli/speed_command.hpp"

#include "cli/exit_codes.hpp"
#include "cli/terminal.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/report/render.hpp"

namespace hailwright::cli {

int run_speed(const SpeedOptions& o) {
  const Checked<SpeedQuestion> question = read_speed_options(o);
  write_messages(render_diagnostics(question.notes, SourceSet()));
  if (!question.value) return exit_usage;
  const auto answer = answer_speed(*question.value);
  expects(answer.has_value(), "a question that was checked has an answer");
  if (o.format == "json") return write_output(speed_json(*answer));
  const Document document = compose_speed(*answer);
  if (o.format == "html") return write_output(render_html(document));
  return write_output(o.format == "md" ? render_markdown(document)
                                       : render_console(document, console_style()));
}

}  // namespace hailwright::cli
