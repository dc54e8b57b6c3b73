// A helper program of ours at the end of two pipes, and the frames that travel along them.
//
// Used by the photo decoder and the calculation host: whatever reads foreign bytes or foreign code
// runs on the far side, and its death is a Failure on this side, never more. One frame is
//   uint32 length of text, uint32 length of blob (both little-endian), JSON text (UTF-8), blob.
#pragma once

#include "base/result.h"

#include <nlohmann/json_fwd.hpp>
#include <sys/types.h>

#include <atomic>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace fettle {

// A file opened by one side for the other; closed with its owner.
class HandedFile {
  public:
    HandedFile() = default;
    explicit HandedFile(int descriptor) : descriptor_(descriptor) {}
    HandedFile(HandedFile&& other) noexcept : descriptor_(std::exchange(other.descriptor_, -1)) {}
    HandedFile& operator=(HandedFile&& other) noexcept {
        std::swap(descriptor_, other.descriptor_);
        return *this;
    }
    ~HandedFile();
    int descriptor() const { return descriptor_; } // -1: none

  private:
    int descriptor_ = -1;
};

struct Frame {
    std::string text;            // JSON
    std::vector<std::byte> blob; // pixels, file bytes; often empty
    HandedFile file = {};        // with requests only
};

// Frames larger than this are taken for garbage: 100 MP of RGBA and some room.
inline constexpr std::uint32_t kMostFrameBytes = 512u << 20;

struct WorkerLimits {
    std::uint64_t address_space_bytes = 0; // RLIMIT_AS; 0: leave alone (always so under ASan)
    std::uint64_t cpu_seconds = 0;         // RLIMIT_CPU; 0: leave alone
    std::optional<std::uint64_t> file_bytes = {}; // RLIMIT_FSIZE
    std::optional<std::uint64_t> processes = {};  // RLIMIT_NPROC; threads count, root is not bound
    std::optional<std::uint64_t> open_files = {}; // RLIMIT_NOFILE
    std::uint32_t answer_bytes = kMostFrameBytes; // an answer of more is taken for garbage
};

// The caller's side. Owns the child: the destructor closes the pipes, kills and reaps it.
// Not thread-safe; one conversation at a time.
class WorkerProcess {
  public:
    // Starts `program` with `arguments` (argv[0] excluded) and requests on its stdin, answers on
    // its stdout; stderr passes through and nothing else that this program has open. Fails with io
    // when the program cannot be started.
    static Result<WorkerProcess> start(const std::filesystem::path& program,
                                       const std::vector<std::string>& arguments,
                                       const WorkerLimits& limits = {});

    WorkerProcess(WorkerProcess&& other) noexcept;
    WorkerProcess& operator=(WorkerProcess&& other) noexcept;
    WorkerProcess(const WorkerProcess&) = delete;
    WorkerProcess& operator=(const WorkerProcess&) = delete;
    ~WorkerProcess();

    // Sends one request and waits for one answer. A child that died, hung past `patience` or
    // answered with garbage is killed and reaped; the Failure (kind plugin) says which, and
    // `running()` is false from then on.
    // So does one that was stopped at what confine() forbids. Once `stop_wanted` is true the child
    // is ended and the Failure is cancelled. The child gets a copy of the descriptor `hand_over`.
    Result<Frame> ask(std::string_view text, std::span<const std::byte> blob,
                      std::chrono::milliseconds patience,
                      const std::atomic<bool>* stop_wanted = nullptr, int hand_over = -1);
    bool running() const { return pid_ > 0; }

  private:
    WorkerProcess(pid_t pid, int to, int from, std::uint32_t most)
        : pid_(pid), to_(to), from_(from), most_(most) {}
    void stop();
    std::string how_it_ended();

    pid_t pid_ = 0;
    int to_ = -1;
    int from_ = -1;
    std::uint32_t most_ = kMostFrameBytes; // bytes of an answer's text, and of its blob
};

// The worker's side: blocking, on stdin and stdout of this process.
// read_request gives cancelled at the orderly end of input.
Result<Frame> read_request();
Done write_answer(std::string_view text, std::span<const std::byte> blob = {});
// Where answers go: a copy of stdout; what is printed goes to stderr from the first call on.
int answer_pipe();
// Instead of an answer: what this process tried and may not do ("to use the network"). May be
// called by a signal handler.
void write_attempt(std::string_view what);

// The worker's main loop: answers each request with `answer(frame)` until the input ends.
// Keeps stdout clean: whatever a library prints goes to stderr.
template <class Answer>
int serve_requests(Answer&& answer) {
    for (;;) {
        auto request = read_request();
        if (!request) return request.failure().kind == FailureKind::cancelled ? 0 : 1;
        Frame reply = answer(*request);
        if (!write_answer(reply.text, reply.blob)) return 1;
    }
}

// The folder this program was started from.
std::filesystem::path own_folder();
// A worker of ours: PREFIX/lib/fettlebook/NAME where PREFIX/bin/fettlebook is installed, else
// beside this program, as in a build.
std::filesystem::path helper_program(const std::string& name);

} // namespace fettle
