#include "hailwright/report/compose.hpp"

#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/report/render.hpp"
#include "hailwright/safety/cautions.hpp"
#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("sources: every citation, caution and default is there") {
  const std::string s = render_markdown(compose_sources());
  std::size_t lines = 0;
  for (const char c : s)
    lines += c == '\n' ? 1 : 0;
  CHECK(lines > impact_grade_sources().size() + caution_sources().size() + default_rows().size());
  CHECK_THAT(s, Contains("iec61215\\-mqt17") || Contains("iec61215-mqt17"));
  CHECK_THAT(s, Contains("ours, no published source"));
}
