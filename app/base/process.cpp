#include "base/process.h"

#include "base/sanitized.h"

#include <fcntl.h>
#include <poll.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <optional>
#include <thread>

namespace fettle {
namespace {

using Clock = std::chrono::steady_clock;
using Header = std::array<unsigned char, 8>;

Failure io_failure(std::string sentence) {
    return {FailureKind::io, std::move(sentence), std::strerror(errno)};
}

void put_length(unsigned char* at, std::size_t length) {
    for (int byte = 0; byte < 4; ++byte)
        at[byte] = static_cast<unsigned char>(length >> (8 * byte));
}

std::uint32_t get_length(const unsigned char* at) {
    return at[0] | at[1] << 8 | at[2] << 16 | static_cast<std::uint32_t>(at[3]) << 24;
}

enum class Transfer { complete, ended, late, stopped, broken };

// How long a transfer is waited for; neither: for ever.
struct Until {
    std::optional<Clock::time_point> deadline = {};
    const std::atomic<bool>* stop = nullptr;
};

constexpr int kStopSeenWithin = 50; // milliseconds

Transfer wait_for(int fd, short events, const Until& until) {
    for (;;) {
        if (until.stop && *until.stop) return Transfer::stopped;
        int patience = until.stop ? kStopSeenWithin : -1;
        if (until.deadline) {
            auto left =
                std::chrono::ceil<std::chrono::milliseconds>(*until.deadline - Clock::now());
            if (left.count() <= 0) return Transfer::late;
            const int all = static_cast<int>(left.count());
            patience = until.stop ? std::min(all, kStopSeenWithin) : all;
        }
        pollfd waiting{fd, events, 0};
        int ready = poll(&waiting, 1, patience);
        if (ready > 0) return Transfer::complete;
        if (ready < 0 && errno != EINTR) return Transfer::broken;
    }
}

Transfer write_all(int fd, const void* data, std::size_t size, const Until& until = {}) {
    auto at = static_cast<const char*>(data);
    while (size > 0) {
        if (auto ready = wait_for(fd, POLLOUT, until); ready != Transfer::complete) return ready;
        ssize_t wrote = write(fd, at, size);
        if (wrote < 0 && (errno == EINTR || errno == EAGAIN)) continue;
        if (wrote < 0) return errno == EPIPE ? Transfer::ended : Transfer::broken;
        at += wrote;
        size -= static_cast<std::size_t>(wrote);
    }
    return Transfer::complete;
}

Transfer read_all(int fd, void* data, std::size_t size, const Until& until = {}) {
    auto at = static_cast<char*>(data);
    while (size > 0) {
        if (auto ready = wait_for(fd, POLLIN, until); ready != Transfer::complete) return ready;
        ssize_t got = read(fd, at, size);
        if (got < 0 && (errno == EINTR || errno == EAGAIN)) continue;
        if (got < 0) return Transfer::broken;
        if (got == 0) return Transfer::ended;
        at += got;
        size -= static_cast<std::size_t>(got);
    }
    return Transfer::complete;
}

// A header with room for one file beside it.
struct HeaderMessage {
    explicit HeaderMessage(Header& header) : bytes{header.data(), header.size()} {
        head.msg_iov = &bytes;
        head.msg_iovlen = 1;
        head.msg_control = space;
        head.msg_controllen = sizeof space;
    }
    HeaderMessage(const HeaderMessage&) = delete;
    HeaderMessage& operator=(const HeaderMessage&) = delete;

    iovec bytes;
    alignas(cmsghdr) char space[CMSG_SPACE(sizeof(int))] = {};
    msghdr head{};
};

// The header of a request travels with the file handed over, if there is one.
Transfer send_header(int fd, Header& header, int hand_over, const Until& until) {
    if (hand_over < 0) return write_all(fd, header.data(), header.size(), until);
    if (auto ready = wait_for(fd, POLLOUT, until); ready != Transfer::complete) return ready;
    HeaderMessage message(header);
    cmsghdr* control = CMSG_FIRSTHDR(&message.head);
    *control = {CMSG_LEN(sizeof(int)), SOL_SOCKET, SCM_RIGHTS};
    std::memcpy(CMSG_DATA(control), &hand_over, sizeof(int));
    // Eight bytes into an empty socket go whole.
    const bool sent = sendmsg(fd, &message.head, MSG_NOSIGNAL) == std::ssize(header);
    return sent ? Transfer::complete : errno == EPIPE ? Transfer::ended : Transfer::broken;
}

Transfer receive_header(int fd, Header& header, HandedFile& file) {
    HeaderMessage message(header);
    ssize_t got;
    do
        got = recvmsg(fd, &message.head, MSG_CMSG_CLOEXEC);
    while (got < 0 && errno == EINTR);
    if (got <= 0) return got == 0 ? Transfer::ended : Transfer::broken;
    if (const cmsghdr* control = CMSG_FIRSTHDR(&message.head);
        control && control->cmsg_type == SCM_RIGHTS) {
        int handed = -1;
        std::memcpy(&handed, CMSG_DATA(control), sizeof(int));
        file = HandedFile(handed);
    }
    const auto so_far = static_cast<std::size_t>(got);
    return read_all(fd, header.data() + so_far, header.size() - so_far);
}

Transfer write_frame(int fd, std::string_view text, std::span<const std::byte> blob,
                     const Until& until = {}, int hand_over = -1) {
    Header header{};
    put_length(header.data(), text.size());
    put_length(header.data() + 4, blob.size());
    auto sent = send_header(fd, header, hand_over, until);
    if (sent == Transfer::complete) sent = write_all(fd, text.data(), text.size(), until);
    if (sent == Transfer::complete) sent = write_all(fd, blob.data(), blob.size(), until);
    return sent;
}

// What follows the header.
Transfer read_rest(int fd, const Header& header, Frame& frame, std::uint32_t most = kMostFrameBytes,
                   const Until& until = {}) {
    const auto text_size = get_length(header.data());
    const auto blob_size = get_length(header.data() + 4);
    if (text_size > most || blob_size > most) return Transfer::broken;
    frame.text.resize(text_size);
    frame.blob.resize(blob_size);
    auto got = read_all(fd, frame.text.data(), text_size, until);
    if (got == Transfer::complete) got = read_all(fd, frame.blob.data(), blob_size, until);
    return got;
}

Transfer read_frame(int fd, Frame& frame, std::uint32_t most, const Until& until) {
    Header header{};
    auto got = read_all(fd, header.data(), header.size(), until);
    return got == Transfer::complete ? read_rest(fd, header, frame, most, until) : got;
}

void limit(int resource, std::uint64_t most) {
    rlimit bound{most, most};
    setrlimit(static_cast<__rlimit_resource>(resource), &bound);
}

// Nothing that this program or a library of it has left open is the worker's business.
void close_above(int last) {
    const auto first = static_cast<unsigned>(last) + 1;
    if (syscall(SYS_close_range, first, ~0u, 0u) == 0) return;
    const long most = std::min(sysconf(_SC_OPEN_MAX), 65536L);
    for (int fd = last + 1; fd < most; ++fd)
        close(fd);
}

// Between fork and exec: only calls that are safe there.
[[noreturn]] void become(const char* program, char* const* arguments, int in, int out,
                         const WorkerLimits& limits) {
    dup2(in, STDIN_FILENO);
    dup2(out, STDOUT_FILENO);
    if (limits.address_space_bytes != 0 && !kSanitized)
        limit(RLIMIT_AS, limits.address_space_bytes);
    if (limits.cpu_seconds != 0) limit(RLIMIT_CPU, limits.cpu_seconds);
    if (limits.file_bytes) limit(RLIMIT_FSIZE, *limits.file_bytes);
    if (limits.processes) limit(RLIMIT_NPROC, *limits.processes);
    if (limits.open_files) limit(RLIMIT_NOFILE, *limits.open_files);
    limit(RLIMIT_CORE, 0);
    std::signal(SIGXFSZ, SIG_IGN); // a file that may not grow is a failed write, not the end
    close_above(STDERR_FILENO);
    execv(program, arguments);
    _exit(127);
}

void close_quietly(int& fd) {
    if (fd >= 0) close(fd);
    fd = -1;
}

// Begins what a worker says instead of an answer; no JSON begins like this.
constexpr char kAttempt = '!';
constexpr std::size_t kLongestAttempt = 300;

Failure attempted(std::string_view what) {
    std::string words(what.substr(0, kLongestAttempt));
    std::ranges::replace_if(
        words, [](char letter) { return letter < ' ' || letter > '~'; }, '?');
    return {FailureKind::plugin, "it tried " + words + ", which it may not, and was stopped"};
}

struct Pipe {
    int read_end = -1;
    int write_end = -1;
    bool open() {
        int ends[2];
        return pipe2(ends, O_CLOEXEC) == 0 && take(ends);
    }
    // A pipe that files can be handed through.
    bool open_for_files() {
        int ends[2];
        if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends) != 0) return false;
        shutdown(ends[0], SHUT_WR);
        return take(ends);
    }
    bool take(const int (&ends)[2]) {
        read_end = ends[0];
        write_end = ends[1];
        return true;
    }
    ~Pipe() {
        close_quietly(read_end);
        close_quietly(write_end);
    }
};

} // namespace

Result<WorkerProcess> WorkerProcess::start(const std::filesystem::path& program,
                                           const std::vector<std::string>& arguments,
                                           const WorkerLimits& limits) {
    // A worker that died must show as a failed write, not as the end of this program.
    std::signal(SIGPIPE, SIG_IGN);
    if (access(program.c_str(), X_OK) != 0)
        return io_failure("The helper program " + program.string() + " cannot be started.");
    Pipe request, answer;
    if (!request.open_for_files() || !answer.open())
        return io_failure("No pipe could be opened to start " + program.string() + ".");

    std::vector<char*> argv{const_cast<char*>(program.c_str())};
    for (const auto& argument : arguments)
        argv.push_back(const_cast<char*>(argument.c_str()));
    argv.push_back(nullptr);

    pid_t child = fork();
    if (child < 0) return io_failure("No process could be started for " + program.string() + ".");
    if (child == 0)
        become(program.c_str(), argv.data(), request.read_end, answer.write_end, limits);
    return WorkerProcess(child, std::exchange(request.write_end, -1),
                         std::exchange(answer.read_end, -1), limits.answer_bytes);
}

WorkerProcess::WorkerProcess(WorkerProcess&& other) noexcept
    : pid_(std::exchange(other.pid_, 0)),
      to_(std::exchange(other.to_, -1)),
      from_(std::exchange(other.from_, -1)),
      most_(other.most_) {}

WorkerProcess& WorkerProcess::operator=(WorkerProcess&& other) noexcept {
    if (this != &other) {
        stop();
        pid_ = std::exchange(other.pid_, 0);
        to_ = std::exchange(other.to_, -1);
        from_ = std::exchange(other.from_, -1);
        most_ = other.most_;
    }
    return *this;
}

WorkerProcess::~WorkerProcess() {
    stop();
}

void WorkerProcess::stop() {
    close_quietly(to_);
    close_quietly(from_);
    if (pid_ <= 0) return;
    kill(pid_, SIGKILL);
    while (waitpid(pid_, nullptr, 0) < 0 && errno == EINTR) {
    }
    pid_ = 0;
}

// Reaps a child that closed its pipe by itself and says how it ended. One that closed it and still
// runs is given a moment, then killed.
std::string WorkerProcess::how_it_ended() {
    close_quietly(to_);
    close_quietly(from_);
    int status = 0;
    for (int tries = 0; waitpid(pid_, &status, WNOHANG) == 0; ++tries) {
        if (tries == 50) kill(pid_, SIGKILL);
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    pid_ = 0;
    if (WIFSIGNALED(status) && WTERMSIG(status) == SIGSYS)
        return "it tried what it may not (to start a process or thread, to open a file or to use "
               "the network), and was stopped"; // with signals blocked, so that it could not say
    if (WIFSIGNALED(status)) return std::string("it crashed: ") + strsignal(WTERMSIG(status));
    return "it stopped by itself with code " + std::to_string(WEXITSTATUS(status));
}

Result<Frame> WorkerProcess::ask(std::string_view text, std::span<const std::byte> blob,
                                 std::chrono::milliseconds patience,
                                 const std::atomic<bool>* stop_wanted, int hand_over) {
    if (!running()) return Failure{FailureKind::plugin, "The helper process is not running."};
    const Until until{Clock::now() + patience, stop_wanted};
    Frame answer;
    auto went = write_frame(to_, text, blob, until, hand_over);
    if (went == Transfer::complete) went = read_frame(from_, answer, most_, until);
    switch (went) {
    case Transfer::complete:
        if (!answer.text.starts_with(kAttempt)) return answer;
        stop();
        return attempted(std::string_view(answer.text).substr(1));
    case Transfer::ended:
        return Failure{FailureKind::plugin, how_it_ended()};
    case Transfer::late:
        stop();
        return Failure{FailureKind::plugin, "it gave no answer within " +
                                                std::to_string(patience.count()) +
                                                " ms and was stopped"};
    case Transfer::stopped:
        stop();
        return Failure{FailureKind::cancelled, "it was stopped"};
    case Transfer::broken:
        break;
    }
    stop();
    return Failure{FailureKind::plugin, "its answer could not be read"};
}

Result<Frame> read_request() {
    answer_pipe(); // before any library has a chance to print into it
    Frame frame;
    Header header{};
    auto got = receive_header(STDIN_FILENO, header, frame.file);
    if (got == Transfer::complete) got = read_rest(STDIN_FILENO, header, frame);
    switch (got) {
    case Transfer::complete:
        return frame;
    case Transfer::ended:
        return Failure{FailureKind::cancelled, "The request pipe was closed."};
    default:
        return io_failure("The request could not be read.");
    }
}

Done write_answer(std::string_view text, std::span<const std::byte> blob) {
    if (write_frame(answer_pipe(), text, blob) != Transfer::complete)
        return io_failure("The answer could not be written.");
    return done();
}

// Libraries may print to stdout; answers go to a copy of it, made on first use.
int answer_pipe() {
    static const int answers = [] {
        int copy = fcntl(STDOUT_FILENO, F_DUPFD_CLOEXEC, 3);
        dup2(STDERR_FILENO, STDOUT_FILENO);
        return copy;
    }();
    return answers;
}

void write_attempt(std::string_view what) {
    char text[kLongestAttempt + 1] = {kAttempt};
    const auto size = std::min(what.size(), kLongestAttempt);
    std::memcpy(text + 1, what.data(), size);
    write_frame(answer_pipe(), {text, size + 1}, {});
}

HandedFile::~HandedFile() {
    if (descriptor_ >= 0) close(descriptor_);
}

std::filesystem::path own_folder() {
    std::error_code error;
    auto self = std::filesystem::read_symlink("/proc/self/exe", error);
    return error ? std::filesystem::current_path() : self.parent_path();
}

std::filesystem::path helper_program(const std::string& name) {
    std::error_code error;
    auto installed = own_folder().parent_path() / "lib/fettlebook" / name;
    return std::filesystem::is_regular_file(installed, error) ? installed : own_folder() / name;
}

} // namespace fettle
