#pragma once

#include <span>

#include "hailwright/core/citation.hpp"

namespace hailwright {

/// What computed numbers rest on: one a page of docs/methods, with the documents that the page
/// names and the weakest way in which one of them was read.
std::span<const Citation> method_sources();

}  // namespace hailwright
