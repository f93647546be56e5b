#pragma once

namespace gley::model {

/// What is spread: the kinds that losses and rules differ by.
enum class MaterialKind { mineral_fertiliser, slurry, solid_manure, spray };

}  // namespace gley::model
