#include "hygiene/cpp_tokens.hpp"
#include "hygiene/rules.hpp"
#include "support/catch.hpp"

#include <algorithm>

using namespace hygiene;

// Each rule is first shown lines that break it and lines that do not, then the project.

namespace {

const Tree& project() {
  static const Tree tree = read_tree(HAILWRIGHT_SOURCE_DIR);
  return tree;
}

const Findings nothing;

/// A sample word written in two halves, so that the rule does not find it in this file.
std::string joined(const std::string& a, const std::string& b) {
  return a + b;
}

/// One failure for each place, so that a list of them stays readable.
void must_be_empty(const Findings& findings) {
  for (const std::string& finding : findings)
    FAIL_CHECK(finding);
  CHECK(findings.empty());
}

}  // namespace

TEST_CASE("the project's files are found", "[hygiene]") {
  CHECK(under(project(), "src/core/").size() >= 3);
  CHECK(under(project(), "include/hailwright/").size() >= 10);
  CHECK(find_file(project(), "tests/hygiene/hygiene_test.cpp") != nullptr);
  CHECK(under(project(), "build/").empty());
  CHECK(under(project(), ".git/").empty());
}

TEST_CASE("source text is split as the compiler does", "[hygiene]") {
  const auto tokens =
      cpp_tokens("int n = 1'000; // \"no\"\n"
                 "/* \"nor this\" */ f(\"no \"\n  \"damage\", '\"', R\"x(a \"b\")x\");");
  std::vector<std::string> texts;
  for (const Token& token : tokens) {
    if (token.kind == TokenKind::text) texts.push_back(token.value);
  }
  CHECK(texts == std::vector<std::string>{"no damage", "a \"b\""});

  const auto includes = includes_of("#include <fmt/format.h>\n  # include \"core/a.hpp\"  // why\n"
                                    "// #include <no>\n");
  REQUIRE(includes.size() == 2);
  CHECK(includes[0].angled);
  CHECK(includes[0].name == "fmt/format.h");
  CHECK_FALSE(includes[1].angled);
  CHECK(includes[1].line == 2);
}

TEST_CASE("layers: a sample that breaks the rule is caught", "[hygiene]") {
  CHECK(check_layers({{"src/core/a.cpp", "#include \"hailwright/model/panel.hpp\"\n"}}) ==
        Findings{"src/core/a.cpp:1: core must not include hailwright/model/panel.hpp"});
  CHECK(check_layers({{"src/tables/a.cpp", "\n#include \"metrology/b.hpp\"\n"}}) ==
        Findings{"src/tables/a.cpp:2: tables must not include metrology/b.hpp"});
  CHECK(check_layers({{"src/plan/a.cpp", "#include \"hailwright/evaluate/b.hpp\"\n"}}).empty());
  CHECK(check_layers({{"include/hailwright/evaluate/a.hpp", "#include \"plan/b.hpp\"\n"}}).size() ==
        1);
  CHECK(check_layers({{"src/logs/a.cpp", "#include \"model/b.hpp\"\n"}}).size() == 1);
  CHECK(check_layers({{"src/evaluate/a.cpp", "#include \"b.hpp\"\n"}}).size() == 1);
  CHECK(check_layers({{"src/other/a.cpp", ""}}).size() == 1);

  CHECK(check_layers({{"src/core/a.cpp", "#include \"hailwright/core/b.hpp\"\n"},
                      {"src/cli/a.cpp", "#include \"cli/b.hpp\"\n#include \"report/c.hpp\"\n"},
                      {"include/hailwright/model/a.hpp",
                       "#include \"hailwright/tables/b.hpp\"\n#include <vector>\n"}}) == nothing);
}

TEST_CASE("layers: includes point down", "[hygiene]") {
  must_be_empty(check_layers(project()));
}

TEST_CASE("own headers: a sample that breaks the rule is caught", "[hygiene]") {
  const File shown{"include/hailwright/core/a.hpp", "#pragma once\n"};
  const File unit{"src/core/a.cpp", "// why\n#include \"hailwright/core/a.hpp\"\n#include <map>\n"};
  CHECK(check_own_headers({{shown.path, "\n#pragma once\n"}}) ==
        Findings{"include/hailwright/core/a.hpp:1: does not begin with #pragma once"});
  CHECK(check_own_headers({shown, {unit.path, "#include <map>\n" + unit.text}}) ==
        Findings{"src/core/a.cpp:1: does not include include/hailwright/core/a.hpp first"});
  CHECK(check_own_headers({shown, {unit.path, "#include \"core/a.hpp\"\n"}}).size() == 1);
  CHECK(check_own_headers({shown, {unit.path, ""}}).size() == 1);
  // A second header of the unit's name: one of them would never be compiled alone.
  CHECK(check_own_headers({shown, unit, {"src/core/a.hpp", "#pragma once\n"}}).size() == 1);

  CHECK(check_own_headers({shown, unit}) == nothing);
  CHECK(check_own_headers({{"src/core/b.hpp", "#pragma once\n"}, {"src/core/c.cpp", ""}}) ==
        nothing);
}

TEST_CASE("own headers: each is the first include of its unit", "[hygiene]") {
  must_be_empty(check_own_headers(project()));
}

TEST_CASE("doors: a sample that breaks the rule is caught", "[hygiene]") {
  const auto one = [](const std::string& path, const std::string& header) {
    return check_doors({{path, "#include <" + header + ">\n"}});
  };
  CHECK(
      one("src/input/reader.cpp", "yaml-cpp/yaml.h") ==
      Findings{"src/input/reader.cpp:1: <yaml-cpp/yaml.h> is for src/input/yaml_cursor.cpp alone"});
  CHECK(one("src/physics/a.cpp", "boost/math/distributions/normal.hpp").size() == 1);
  CHECK(one("src/metrology/a.hpp", "boost/math/distributions/normal.hpp").size() == 1);
  CHECK(one("src/input/a.cpp", "nlohmann/json.hpp").size() == 1);
  CHECK(one("include/hailwright/core/a.hpp", "fmt/format.h") ==
        Findings{"include/hailwright/core/a.hpp:1: <fmt/format.h> in a header"});
  CHECK(one("src/cli/files.cpp", "zlib.h").size() == 1);
  CHECK(one("src/logs/day.cpp", "date/tz.h").size() == 1);
  CHECK(one("src/core/a.cpp", "unknown/library.h").size() == 1);
  CHECK(check_doors({{"src/cli/a.cpp", "#include <CLI/CLI.hpp>\n"},
                     {"src/cli/b.cpp", "#include <CLI/App.hpp>\n"}}) ==
        Findings{"src/cli/b.cpp:1: <CLI/App.hpp> is already used by src/cli/a.cpp"});

  CHECK(check_doors({{"src/cli/a.cpp", "#include <CLI/CLI.hpp>\n#include <fstream>\n"},
                     {"src/input/yaml_cursor.cpp", "#include <yaml-cpp/yaml.h>\n"},
                     {"src/metrology/a.cpp", "#include <boost/math/a.hpp>\n"},
                     {"src/metrology/b.cpp", "#include <boost/math/b.hpp>\n#include <vector>\n"},
                     {"src/report/json_values.hpp", "#include <nlohmann/json.hpp>\n"},
                     {"src/logs/time_zone.cpp", "#include <date/tz.h>\n"},
                     {"src/cli/byte_source.cpp", "#include <zlib.h>\n"},
                     {"src/core/a.cpp", "#include <fmt/format.h>\n"}}) == nothing);
}

TEST_CASE("doors: each outside library has one", "[hygiene]") {
  must_be_empty(check_doors(project()));
}

TEST_CASE("reach: a sample that breaks the rule is caught", "[hygiene]") {
  const auto found = [](const std::string& path, const std::string& text) {
    return check_reach({{path, text}});
  };
  CHECK(found("src/core/a.cpp", "\nstd::ifstream in(\"a\");") ==
        Findings{"src/core/a.cpp:2: ifstream is for src/cli alone"});
  CHECK(found("src/report/a.cpp", "auto now = std::chrono::system_clock::now();").size() == 1);
  CHECK(found("include/hailwright/model/a.hpp", "const char* home = std::getenv(\"A\");").size() ==
        1);
  CHECK(found("src/input/a.cpp", "fmt::print(x); std::cout << 1; std::exit(1);").size() == 3);

  CHECK(found("src/cli/a.cpp", "std::ifstream in; std::cout << std::getenv(\"A\");") == nothing);
  CHECK(found("src/core/a.cpp", "f(\"exit cout\"); // cout\n std::filesystem::path p;") == nothing);
}

TEST_CASE("reach: only the command line touches the outside", "[hygiene]") {
  must_be_empty(check_reach(project()));
}

TEST_CASE("unit tests: a sample that breaks the rule is caught", "[hygiene]") {
  const File unit{"src/input/protocol_reader.cpp",
                  "#include <fmt/format.h>\n#include \"hailwright/input/readers.hpp\"\n"};
  const File list{"tests/hygiene/untested_units.txt",
                  "# a comment\nsrc/input/protocol_reader.cpp: covered by the tests of the cli\n"};
  CHECK(check_units_have_tests({unit}) == Findings{"src/input/protocol_reader.cpp:1: has no "
                                                   "tests/unit/input/protocol_reader_test.cpp"});
  // The test of another layer, or of a header that is not the unit's own, does not count.
  CHECK(check_units_have_tests({unit, {"tests/unit/model/protocol_reader_test.cpp", ""}}).size() ==
        1);
  CHECK(check_units_have_tests(
            {{"src/input/a.cpp", "#include \"core/b.hpp\"\n"}, {"tests/unit/core/b_test.cpp", ""}})
            .size() == 1);
  // An excuse without a reason, and an excuse that nobody needs.
  CHECK(check_units_have_tests({unit, {list.path, "src/input/protocol_reader.cpp\n"}}).size() == 2);
  CHECK(check_units_have_tests({list}).size() == 1);

  CHECK(check_units_have_tests({unit, list}) == nothing);
  CHECK(check_units_have_tests({unit, {"tests/unit/input/protocol_reader_test.cpp", ""}}) ==
        nothing);
  CHECK(check_units_have_tests({unit, {"tests/unit/input/readers_test.cpp", ""}}) == nothing);
  CHECK(check_units_have_tests({{"src/cli/main.cpp", ""}}) == nothing);
}

TEST_CASE("unit tests: every unit of the library has one", "[hygiene]") {
  must_be_empty(check_units_have_tests(project()));
}

TEST_CASE("lengths: a sample that breaks the rule is caught", "[hygiene]") {
  CHECK(check_lengths({{"src/core/a.cpp", std::string(501, '\n')}}).size() == 1);
  CHECK(check_lengths({{"src/core/a.cpp", std::string(500, '\n')},
                       {"docs/long.md", std::string(900, '\n')}}) == nothing);
}

TEST_CASE("lengths: no source file is too long", "[hygiene]") {
  must_be_empty(check_lengths(project()));
}

TEST_CASE("leftovers: a sample that breaks the rule is caught", "[hygiene]") {
  const auto found = [](const std::string& text) {
    return check_leftovers({{"docs/a.md", text}}).size();
  };
  CHECK(found("see " + joined("/wo", "rk/main/a")) == 1);
  CHECK(found(joined("/ro", "ot/a")) == 1);
  CHECK(found("\"" + joined("/tm", "p/h_a") + "\"") == 1);
  CHECK(found("// " + joined("TO", "DO") + ": later") == 1);
  CHECK(found(joined("FIX", "ME")) == 1);
  CHECK(found(joined("HA", "CK")) == 1);
  CHECK(found("a\nb " + joined("XX", "X")) == 1);

  CHECK(found("https://example.org/work/a frame/work ./tmp/a HACKING fixme") == 0);
}

TEST_CASE("leftovers: none in any file", "[hygiene]") {
  must_be_empty(check_leftovers(project()));
}

TEST_CASE("names of tests: a sample that breaks the rule is caught", "[hygiene]") {
  const std::string begin = joined("TEST_", "CASE(\"");
  CHECK(check_test_names({{"tests/a_test.cpp", "\n" + begin + "one; two\") {\n"}}) ==
        Findings{
            "tests/a_test.cpp:2: a name with ';' is cut in two by CMake, and then tests nothing"});
  CHECK(check_test_names({{"tests/a_test.cpp", begin + "one, two\") { f(); }\n"}}) == nothing);
}

TEST_CASE("names of tests: none is cut in two", "[hygiene]") {
  must_be_empty(check_test_names(project()));
}

TEST_CASE("citations: a sample that breaks the rule is caught", "[hygiene]") {
  const File named{"src/tables/a.cpp", "constexpr Citation a{.id = \"x1\", .title = \"t\"};\n"};
  const File listed{"src/tables/b.cpp",
                    "const std::array<Citation, 2> all{{{\"x2\", \"t\", \"\"},\n"
                    "                                   {\"x1\", \"t\", \"\"}}};\n"};
  CHECK(count_citations({named, listed}) == 3);
  CHECK(check_citation_ids({named, listed}) ==
        Findings{"src/tables/b.cpp:2: citation id \"x1\" is also at src/tables/a.cpp:1: "});
  // Row fields and function arguments of the same text are no ids.
  CHECK(check_citation_ids(
            {named, {"src/tables/c.cpp", "void f(const Citation& c) { g({\"x1\"}); }\n"}}) ==
        nothing);
}

TEST_CASE("citations: no id is given twice", "[hygiene]") {
  CHECK(count_citations(project()) >= 10);
  must_be_empty(check_citation_ids(project()));
}

TEST_CASE("claims: a sample that breaks the rule is caught", "[hygiene]") {
  const auto found = [](const std::string& sentence) {
    return check_claims({{"src/report/a.cpp", "f(\"" + sentence + "\");\n"}});
  };
  CHECK(found("the panel Passed") == Findings{"src/report/a.cpp:1: claims \"Passed\""});
  for (const char* sentence :
       {"it met the standard", "certified", "IEC-rated", "reaches class HW3", "undamaged",
        "no \"\n  \"damage", "power unaffected", "hailproof", "hail-proof", "a safe distance",
        "safe to use", "chance that nothing happened", "agrees within error"}) {
    CAPTURE(sentence);
    CHECK(found(sentence).size() == 1);
  }
  CHECK(found("not a certification test; withstood; HW3; bypassed") == nothing);
  CHECK(check_claims({{"src/report/a.cpp", "// no damage, in a comment\n"},
                      {"docs/a.md", "no output says \"certified\""}}) == nothing);
}

TEST_CASE("claims: a sentence is allowed with a reason, and only that sentence", "[hygiene]") {
  const File list{"tests/hygiene/allowed_words.txt",
                  "src/report/a.cpp | no damage shown | says what was seen\n"};
  CHECK(check_claims({list, {"src/report/a.cpp", "f(\"n places, no damage shown\");"}}) == nothing);
  CHECK(check_claims({list, {"src/report/a.cpp", "f(\"no damage shown, no damage\");"}}).size() ==
        1);
  CHECK(check_claims({list, {"src/report/b.cpp", "f(\"no damage shown\");"}}).size() == 2);
  CHECK(check_claims({{list.path, "src/report/a.cpp | no damage shown\n"}}).size() == 1);
}

TEST_CASE("claims: the program makes none", "[hygiene]") {
  must_be_empty(check_claims(project()));
}

TEST_CASE("method pages: a sample that breaks the rule is caught", "[hygiene]") {
  const std::string whole = "# A\n## Question\n## Inputs and units\n## Formula and source\n"
                            "## Valid range\n## Uncertainty\n## Checked against\n";
  const File index{"docs/methods/README.md", "- [A](a.md)\n"};
  const auto found = [&](const std::string& page) {
    return check_method_pages({index, {"docs/methods/a.md", page}});
  };
  CHECK(found(whole + "## Do not use when\n") == nothing);
  CHECK(found(whole) == Findings{"docs/methods/a.md:7: lacks \"Do not use when\""});
  CHECK(found("# A\n## Inputs and units\n") ==
        Findings{"docs/methods/a.md:2: \"Inputs and units\" where \"Question\" belongs"});
  CHECK(found(whole + "## Do not use when\n## More\n").size() == 1);
  CHECK(found(whole + "see `tests/unit/a_test.cpp`\n## Do not use when\n").size() == 1);
  CHECK(check_method_pages({{"docs/methods/a.md", whole + "## Do not use when\n"}}).size() == 1);
  CHECK(check_method_pages({index, {"docs/other.md", "# B\n"}}) == nothing);
}

TEST_CASE("method pages: all have their headings and stand in the index", "[hygiene]") {
  CHECK(under(project(), "docs/methods/").size() >= 13);
  must_be_empty(check_method_pages(project()));
}

TEST_CASE("schemas: a sample that breaks the rule is caught", "[hygiene]") {
  const std::string whole = "{\"$schema\": \"https://json-schema.org/draft/2020-12/schema\"}\n";
  const File page{"docs/a.md", "see [it](schemas/a.schema.json)\n"};
  const auto found = [&](const std::string& text) {
    return check_schemas({page, {"docs/schemas/a.schema.json", text}}).size();
  };
  CHECK(found("{}\n") == 1);
  CHECK(found(whole + "\n") == 1);
  CHECK(found("{\r" + whole.substr(1)) == 1);
  CHECK(check_schemas({{"docs/schemas/a.schema.json", whole}}) ==
        Findings{"docs/schemas/a.schema.json:1: no page of docs links it"});
  CHECK(found(whole) == 0);
}

TEST_CASE("schemas: each is whole and linked", "[hygiene]") {
  CHECK(under(project(), "docs/schemas/").size() >= 4);
  must_be_empty(check_schemas(project()));
}
