#pragma once

// The only door to the test library, so that a newer major version changes one file.
#include <catch2/catch.hpp>

using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
