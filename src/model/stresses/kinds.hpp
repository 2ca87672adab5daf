#pragma once

#include "hailwright/model/stress.hpp"

/// The kinds of stress, each made in the file of its name. A new one is declared here and listed in
/// src/model/stress.cpp.
namespace hailwright::stresses {

StressKind static_load();
StressKind bending();
StressKind cable_pull();
StressKind spray();

}  // namespace hailwright::stresses
