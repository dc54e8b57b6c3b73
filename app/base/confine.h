// Shuts this process off from everything but its own memory, the pipes it was given and, where
// allowed, the reading of files: for workers, before they touch foreign bytes or foreign code.
//
// Done by seccomp filters, which the kernel applies to every thread from then on and nothing can
// lift. Calls that a worker needs are let through; what would write or change a file, use the
// network, start a process or disturb another one ends the worker, and whoever asked gets a
// Failure that names the attempt (WorkerProcess::ask); every other call fails as if the kernel did
// not know it.
//
// Under AddressSanitizer the same filters hold, but files may be opened for reading at every level
// (its reports read /proc/self/maps and the program's own file), and pipes be made and written to
// (that is how it tries whether memory can be read).
#pragma once

#include "base/result.h"

namespace fettle {

enum class Confinement {
    reads_files,        // no writing, no network, no other process; threads and reading are allowed
    loads_a_library,    // the same without threads
    opens_nothing_more, // on top of either: no file may be opened any more, no thread started
};

// Files that were handed to this process open (HandedFile) may still be written by mapping them.
// Fails (refused) where the kernel does not do it: the resource limits of WorkerLimits are what is
// left then. Call with no other thread running; what is attempted is told by write_attempt.
Done confine(Confinement how);

} // namespace fettle
