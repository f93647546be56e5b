#pragma once
#include <cstddef>

namespace gley::daemon {

/// Asks for as many open files as the pages' connections may take beside the store's and the
/// broker's, as far as the system lets us, and warns of fewer. Throws std::runtime_error if there
/// are too few to run at all.
void see_to_open_files(std::size_t connections);

/// From now on, where memory runs out on any thread, the process says so and ends with exit code 1.
/// What was acknowledged to the broker is in the store by then, and what was not stays with the
/// broker; to go on with half a thought would be worse.
void end_when_out_of_memory();

}  // namespace gley::daemon
