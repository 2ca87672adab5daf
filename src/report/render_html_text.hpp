#pragma once

#include <string>
#include <string_view>

#include "hailwright/report/document.hpp"
#include "report/render_link.hpp"

namespace hailwright::detail {

/// The text such that it can stand between tags and in quotes. Two characters that XML forbids
/// (XML 1.0, production 2, from memory) come out as '?', like those of `printable`.
std::string html_escaped(std::string_view raw);

/// An element. `inside` and the attributes are markup already.
std::string html_element(std::string_view name, const std::string& inside,
                         std::string_view attributes = "");

/// Words with their tones and links. Every tone but plain is bold; bad and open are underlined each
/// in its own way, so that none needs its colour. A number and its unit stay on one line.
/// Contract: links as `link_kind` says, those within to one of `targets`.
std::string html_words(const Runs& text, const LinkTargets& targets);

/// Whether a reader would see nothing.
bool is_blank(const Runs& text);
bool is_blank(std::string_view text);

/// The id of a picture's figure on the page: no heading and no part of a drawing has one like it.
std::string figure_id(std::string_view id);

}  // namespace hailwright::detail
