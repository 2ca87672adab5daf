// A program of somebody else that uses hailwright as a library: reads a protocol from memory, gets
// the located errors back, and looks up a published grade.
#include <cstdio>
#include <optional>
#include <string>

#include <hailwright/core/diagnostic.hpp>
#include <hailwright/input/readers.hpp>
#include <hailwright/tables/impact_grades.hpp>

int main() {
  using namespace hailwright;
  const Loader from_memory = [](const std::string&, std::size_t) {
    return Loaded{"hailwright: protocol 1\ntitle: a misspelt key\nseriess: 3\n", "", ""};
  };
  SourceSet sources;
  const Diagnostics notes = check_file("protocol.yaml", from_memory, sources);
  const std::string messages = render_diagnostics(notes, sources);
  std::fputs(messages.c_str(), stdout);
  if (!notes.has_errors() || messages.find("protocol.yaml:3:") == std::string::npos) return 1;

  const Grade* grade = find_grade("IEC 61215 25 mm");
  if (grade == nullptr) return 2;
  const std::optional<Energy> energy = grade->energy();
  if (!energy) return 3;
  std::printf("%s: %.2f J\n", grade_label(*grade).c_str(), energy->si());
  // IEC 61215 hail table: 7.53 g at 23.0 m/s.
  return energy->si() > 1.98 && energy->si() < 2.00 ? 0 : 4;
}
