#include "report/render_link.hpp"

#include <algorithm>
#include <functional>
#include <variant>

#include "hailwright/core/contract.hpp"
#include "report/text_layout.hpp"

namespace hailwright::detail {

namespace {

constexpr std::string_view web_scheme = "https://";

bool is_web_address(std::string_view link) {
  constexpr std::string_view marks = "-._~:/?#[]@!$&'()*+,;=%";
  return link.starts_with(web_scheme) && link.size() > web_scheme.size() &&
         std::all_of(link.begin(), link.end(), [&](char c) {
           return is_letter_or_digit(c) || marks.find(c) != std::string_view::npos;
         });
}

bool is_file_below(std::string_view path) {
  if (path.find('\\') != std::string_view::npos || printable(path, Breaks::kept) != path ||
      path.find_first_of("\t\r\n") != std::string_view::npos) {
    return false;
  }
  if (path.substr(0, path.find('/')).find(':') != std::string_view::npos) return false;
  for (std::size_t from = 0; from <= path.size();) {
    const std::size_t end = std::min(path.find('/', from), path.size());
    const std::string_view name = path.substr(from, end - from);
    if (name.empty() || name == "." || name == "..") return false;
    from = end + 1;
  }
  return true;
}

void take(std::set<std::string, std::less<>>& ids, const std::string& id) {
  expects(is_plain_name(id), "an id of letters, digits and -");
  expects(ids.insert(id).second, "ids that differ from each other");
}

}  // namespace

bool is_plain_name(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(),
                                      [](char c) { return is_letter_or_digit(c) || c == '-'; });
}

LinkKind link_kind(std::string_view link) {
  if (link.empty()) return LinkKind::none;
  if (link.front() == '#') {
    expects(is_plain_name(link.substr(1)), "a link to an id of letters, digits and -");
    return LinkKind::within;
  }
  if (is_web_address(link)) return LinkKind::web;
  expects(is_file_below(link), "a link to an address, a part of the document or a file below it");
  return LinkKind::beside;
}

std::string path_address(std::string_view path) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  constexpr std::string_view marks = "-._~/";
  std::string out;
  for (const char c : path) {
    if (is_letter_or_digit(c) || marks.find(c) != std::string_view::npos) {
      out += c;
      continue;
    }
    const auto byte = static_cast<unsigned char>(c);
    out += '%';
    out += digits[byte >> 4U];
    out += digits[byte & 0xFU];
  }
  return out;
}

void LinkTargets::expect(std::string_view id) const {
  expects(headings.contains(id) || pictures.contains(id),
          "a link to a part or a picture of this document");
}

LinkTargets link_targets(const Document& document) {
  LinkTargets targets;
  for (const Block& block : document.blocks) {
    if (const auto* heading = std::get_if<Heading>(&block);
        heading != nullptr && !heading->id.empty()) {
      take(targets.headings, heading->id);
    } else if (const auto* figure = std::get_if<Figure>(&block)) {
      take(targets.pictures, figure->id);
    } else if (const auto* opening = std::get_if<Opening>(&block);
               opening != nullptr && !opening->picture.svg.empty()) {
      take(targets.pictures, opening->picture.id);
    }
  }
  return targets;
}

std::vector<LinkedRuns> by_link(const Runs& text) {
  std::vector<LinkedRuns> groups;
  for (const Run& run : text) {
    if (run.text.empty()) continue;
    if (groups.empty() || groups.back().link != run.link) groups.push_back({run.link, {}});
    groups.back().runs.push_back(run);
  }
  return groups;
}

bool says_where(const LinkedRuns& linked) {
  std::string words;
  for (const Run& run : linked.runs)
    words += run.text;
  std::string_view address = linked.link;
  if (address.starts_with(web_scheme)) address.remove_prefix(web_scheme.size());
  return words.find(address) != std::string::npos;
}

}  // namespace hailwright::detail
