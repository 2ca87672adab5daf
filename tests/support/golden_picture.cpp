#include "support/golden_picture.hpp"

#include <fstream>
#include <regex>

#include "support/catch.hpp"
#include "support/file_bytes.hpp"
#include "support/picture_boxes.hpp"

namespace hailwright::testing {

namespace {

std::string golden_path(const std::string& name) {
  return std::string(HAILWRIGHT_SOURCE_DIR) + "/tests/golden/" + name + ".svg";
}

}  // namespace

void check_golden(const std::string& name, const std::string& svg) {
  CAPTURE(name);
  // On purpose changed? Run this program with [write-golden] and look at the pictures.
  CHECK((svg == file_bytes(golden_path(name))));
}

void write_golden(const std::string& name, const std::string& svg) {
  std::ofstream file(golden_path(name), std::ios::binary);
  file << svg;
  CHECK(file.good());
}

std::string picture_words(const std::string& svg) {
  std::string all;
  for (const PictureText& text : picture_texts(svg))
    all += text.words + " ";
  return all;
}

void check_ink(const std::string& svg) {
  const std::regex colour("#([0-9a-f]{3}|[0-9a-f]{6})\"");
  for (std::sregex_iterator i(svg.begin(), svg.end(), colour), end; i != end; ++i) {
    const std::string digits = (*i)[1].str();
    const std::size_t part = digits.size() / 3;
    CHECK(digits.substr(0, part) == digits.substr(part, part));
    CHECK(digits.substr(0, part) == digits.substr(2 * part, part));
  }
  const std::regex size("font-size=\"([0-9.]+)\"");
  for (std::sregex_iterator i(svg.begin(), svg.end(), size), end; i != end; ++i)
    CHECK(std::stod((*i)[1].str()) >= 14.0);
}

}  // namespace hailwright::testing
