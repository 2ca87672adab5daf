#include "cli/checksums.hpp"

#include "support/catch.hpp"

using namespace hailwright::cli;

namespace {

// FIPS 180-4 example: the digest of "abc"; and that of nothing.
const std::string of_abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
const std::string of_nothing = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";

std::vector<std::string> names(const std::string& text) {
  std::vector<std::string> all;
  for (const Checksum& sum : read_checksums(text))
    all.push_back(sum.name);
  return all;
}

}  // namespace

TEST_CASE("checksums: a line a file in the order given") {
  CHECK(checksums_text({{"b/a.csv", "abc"}, {"a.csv", ""}}) ==
        of_abc + "  b/a.csv\n" + of_nothing + "  a.csv\n");
  CHECK(checksums_text({}).empty());
}

TEST_CASE("checksums: what was written reads back whatever the names hold") {
  const std::vector<OutputFile> files{{"a b.csv", "abc"},          {"with\\backslash", ""},
                                      {"with\nline break", "abc"}, {"with\rreturn", "abc"},
                                      {" blanks ", "abc"},         {"\xC3\xA9.txt", "abc"},
                                      {"..a/b..", "abc"}};
  const std::vector<Checksum> sums = read_checksums(checksums_text(files));
  REQUIRE(sums.size() == files.size());
  for (std::size_t i = 0; i < files.size(); ++i) {
    CHECK(sums[i].name == files[i].name);
    CHECK(sums[i].sha256 == (files[i].bytes.empty() ? of_nothing : of_abc));
  }
}

TEST_CASE("checksums: lines of another form are passed over") {
  const std::string good = of_abc + "  a\n";
  CHECK(names("") == std::vector<std::string>{});
  CHECK(names("\n\nno sums\n" + good) == std::vector<std::string>{"a"});
  CHECK(names(of_abc + "  a") == std::vector<std::string>{"a"});
  CHECK(names(of_abc + " a\n").empty());
  CHECK(names(of_abc + "  \n").empty());
  CHECK(names(of_abc.substr(1) + "  a\n").empty());
  CHECK(names("G" + of_abc.substr(1) + "  a\n").empty());
  CHECK(names("\\" + of_abc + "  a\\x\n").empty());
  CHECK(names("\\" + of_abc + "  a\\\n").empty());
}

TEST_CASE("checksums: no name leads out of the folder") {
  for (const std::string name : {"/etc/passwd", "../a", "a/../../b", "..", "./a", "."}) {
    CAPTURE(name);
    CHECK(names(of_abc + "  " + name + "\n").empty());
  }
}
