#include "base/confine.h"

#include "base/process.h"
#include "base/sanitized.h"

#include <fcntl.h>
#include <sched.h>
#include <seccomp.h>
#include <sys/ioctl.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <ucontext.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <initializer_list>
#include <memory>
#include <string_view>

namespace fettle {
namespace {

// What calculating, decoding, loading a library and answering need. Nothing here reaches beyond
// this process except by descriptors it has already.
constexpr const char* kHarmless[] = {
    "access",
    "alarm",
    "arch_prctl",
    "brk",
    "clock_getres",
    "clock_gettime",
    "clock_nanosleep",
    "close",
    "dup",
    "dup2",
    "dup3",
    "exit",
    "exit_group",
    "faccessat",
    "faccessat2",
    "fadvise64",
    "fstat",
    "fstatfs",
    "futex",
    "getcwd",
    "getdents64",
    "getegid",
    "geteuid",
    "getgid",
    "getpgrp",
    "getpid",
    "getppid",
    "getrandom",
    "getrlimit",
    "getrusage",
    "gettid",
    "gettimeofday",
    "getuid",
    "lseek",
    "lstat",
    "madvise",
    "membarrier",
    "mmap",
    "mprotect",
    "mremap",
    "munmap",
    "nanosleep",
    "newfstatat",
    "poll",
    "ppoll",
    "pread64",
    "preadv",
    "pselect6",
    "read",
    "readlink",
    "readlinkat",
    "readv",
    "recvmsg",
    "restart_syscall",
    "rseq",
    "rt_sigpending",
    "rt_sigprocmask",
    "rt_sigreturn",
    "rt_sigtimedwait",
    "sched_getaffinity",
    "sched_getparam",
    "sched_getscheduler",
    "sched_yield",
    "seccomp",
    "select",
    "set_robust_list",
    "set_tid_address",
    "sigaltstack",
    "stat",
    "statfs",
    "statx",
    "sysinfo",
    "time",
    "times",
    "uname",
};

// Each call with the words for its attempt; a path, in the argument `path_at`, ends them.
struct Attempt {
    const char* call;
    const char* words;
    int path_at = -1;
};

constexpr const char* kChange = "to change the file ";
constexpr const char* kNetwork = "to use the network";
constexpr const char* kProcess = "to start another process or thread";
constexpr const char* kDisturb = "to reach into another process";
constexpr const char* kWriteTo = "to write where it was not asked to";
constexpr const char* kSystem = "to change the system";

constexpr Attempt kForbidden[] = {
    {"chmod", kChange, 0},
    {"chown", kChange, 0},
    {"creat", kChange, 0},
    {"fchmod", kWriteTo},
    {"fchmodat", kChange, 1},
    {"fchown", kWriteTo},
    {"fchownat", kChange, 1},
    {"fsetxattr", kWriteTo},
    {"lchown", kChange, 0},
    {"link", kChange, 1},
    {"linkat", kChange, 3},
    {"lsetxattr", kChange, 0},
    {"mkdir", kChange, 0},
    {"mkdirat", kChange, 1},
    {"mknod", kChange, 0},
    {"mknodat", kChange, 1},
    {"rename", kChange, 0},
    {"renameat", kChange, 1},
    {"renameat2", kChange, 1},
    {"rmdir", kChange, 0},
    {"setxattr", kChange, 0},
    {"symlink", kChange, 1},
    {"symlinkat", kChange, 2},
    {"truncate", kChange, 0},
    {"unlink", kChange, 0},
    {"unlinkat", kChange, 1},
    {"utime", kChange, 0},
    {"utimensat", kChange, 1},
    {"utimes", kChange, 0},
    {"copy_file_range", kWriteTo},
    {"pwrite64", kWriteTo},
    {"pwritev", kWriteTo},
    {"pwritev2", kWriteTo},
    {"sendfile", kWriteTo},
    {"splice", kWriteTo},
    {"tee", kWriteTo},
    {"vmsplice", kWriteTo},
    {"accept", kNetwork},
    {"accept4", kNetwork},
    {"bind", kNetwork},
    {"connect", kNetwork},
    {"listen", kNetwork},
    {"sendmmsg", kNetwork},
    {"sendmsg", kNetwork},
    {"sendto", kNetwork},
    {"socket", kNetwork},
    {"socketpair", kNetwork},
    {"execve", kProcess},
    {"execveat", kProcess},
    {"fork", kProcess},
    {"vfork", kProcess},
    {"pidfd_open", kDisturb},
    {"pidfd_send_signal", kDisturb},
    {"process_vm_readv", kDisturb},
    {"process_vm_writev", kDisturb},
    {"ptrace", kDisturb},
    {"rt_sigqueueinfo", kDisturb},
    {"setpgid", kDisturb},
    {"setpriority", kDisturb},
    {"setsid", kDisturb},
    {"tkill", kDisturb},
    {"chroot", kSystem},
    {"mount", kSystem},
    {"pivot_root", kSystem},
    {"reboot", kSystem},
    {"setns", kSystem},
    {"umount2", kSystem},
    {"unshare", kSystem},
};

constexpr Attempt kPartly[] = {
    {"open", "to open the file ", 0},
    {"openat", "to open the file ", 1},
    {"write", kWriteTo},
    {"writev", kWriteTo},
    {"clone", kProcess},
    {"kill", kDisturb},
    {"tgkill", kDisturb},
    {"fallocate", kWriteTo},
    {"ftruncate", kWriteTo},
};

// Numbers of the calls above, found beforehand: a signal handler may not look them up by name.
struct Known {
    int number = __NR_SCMP_ERROR;
    Attempt attempt;
};
constexpr std::size_t kKnown = std::size(kForbidden) + std::size(kPartly);
std::array<Known, kKnown> g_known;
int g_answers = -1;

// Text put together where nothing may be allocated.
class Line {
  public:
    void add(const char* words) {
        for (; *words && size_ < sizeof text_; ++words) {
            const auto letter = static_cast<unsigned char>(*words);
            text_[size_++] = letter < ' ' || letter > '~' ? '?' : *words;
        }
    }
    std::string_view text() const { return {text_, size_}; }

  private:
    char text_[300];
    std::size_t size_ = 0;
};

const char* argument(const ucontext_t& at, int number) {
#if defined(__x86_64__)
    constexpr int kRegisters[] = {REG_RDI, REG_RSI, REG_RDX, REG_R10};
    return reinterpret_cast<const char*>(at.uc_mcontext.gregs[kRegisters[number]]);
#elif defined(__aarch64__)
    return reinterpret_cast<const char*>(at.uc_mcontext.regs[number]);
#else
    (void)at, (void)number;
    return "";
#endif
}

// Tells the asker what was tried and ends the process. A path that points nowhere ends it too.
[[noreturn]] void tell_and_end(int, siginfo_t* info, void* context) {
    std::signal(SIGSEGV, SIG_DFL);
    Line line;
    for (const Known& known : g_known) {
        if (known.number != info->si_syscall) continue;
        line.add(known.attempt.words);
        if (known.attempt.path_at >= 0)
            line.add(argument(*static_cast<const ucontext_t*>(context), known.attempt.path_at));
        break;
    }
    write_attempt(line.text());
    _exit(126);
}

// A rule's condition on one argument of the call. (The library's own macros are C.)
scmp_arg_cmp where(unsigned number, scmp_compare how, scmp_datum_t value, scmp_datum_t masked = 0) {
    return {number, how, value, masked};
}

class Filter {
  public:
    explicit Filter(std::uint32_t otherwise) : filter_(seccomp_init(otherwise)) {
        if (!filter_) error_ = -ENOMEM;
    }

    // A call this kernel or machine does not have needs no rule.
    void rule(std::uint32_t action, const char* call,
              std::initializer_list<scmp_arg_cmp> when = {}) {
        const int number = seccomp_syscall_resolve_name(call);
        if (number < 0 || error_ != 0) return;
        error_ = seccomp_rule_add_array(filter_.get(), action, number,
                                        static_cast<unsigned>(when.size()), when.begin());
        if (error_ == -EDOM) error_ = 0;
    }
    void allow(const char* call, std::initializer_list<scmp_arg_cmp> when = {}) {
        rule(SCMP_ACT_ALLOW, call, when);
    }
    void stop(const char* call, std::initializer_list<scmp_arg_cmp> when = {}) {
        rule(SCMP_ACT_TRAP, call, when);
    }

    Done load() {
        const auto set = [this](scmp_filter_attr attribute, std::uint32_t value) {
            if (error_ == 0) error_ = seccomp_attr_set(filter_.get(), attribute, value);
        };
        set(SCMP_FLTATR_ACT_BADARCH, SCMP_ACT_KILL_PROCESS);
        set(SCMP_FLTATR_CTL_OPTIMIZE, 2);
        if (error_ == 0) error_ = seccomp_load(filter_.get());
        if (error_ == 0) return done();
        return Failure{FailureKind::refused, "The kernel does not shut this process off.",
                       std::strerror(-error_)};
    }

  private:
    struct Release {
        void operator()(void* filter) const { seccomp_release(filter); }
    };
    std::unique_ptr<void, Release> filter_;
    int error_ = 0;
};

void only_reading(Filter& filter, const char* call, unsigned flags) {
    const auto masked = [flags](scmp_datum_t mask, scmp_datum_t value) {
        return where(flags, SCMP_CMP_MASKED_EQ, mask, value);
    };
    constexpr scmp_datum_t kWriting = O_ACCMODE | O_CREAT | O_TRUNC;
    filter.allow(call, {masked(kWriting, O_RDONLY)});
    for (const int mode : {O_WRONLY, O_RDWR, O_ACCMODE})
        filter.stop(call, {masked(O_ACCMODE, static_cast<scmp_datum_t>(mode))});
    filter.stop(call, {masked(O_CREAT, O_CREAT)});
    filter.stop(call, {masked(O_TRUNC, O_TRUNC)});
}

void threads(Filter& filter, bool allowed) {
    // (clone3 hides its flags from filters; the C library goes back to clone where it is unknown.)
    if (!allowed) return filter.stop("clone");
    filter.allow("clone", {where(0, SCMP_CMP_MASKED_EQ, CLONE_THREAD, CLONE_THREAD)});
    filter.stop("clone", {where(0, SCMP_CMP_MASKED_EQ, CLONE_THREAD, 0)});
}

void only_itself(Filter& filter) {
    const auto self = static_cast<scmp_datum_t>(getpid());
    for (const char* call : {"kill", "tgkill"}) {
        filter.allow(call, {where(0, SCMP_CMP_EQ, self)});
        filter.stop(call, {where(0, SCMP_CMP_NE, self)});
    }
    for (const scmp_datum_t whose : {scmp_datum_t{0}, self})
        filter.allow("prlimit64", {where(0, SCMP_CMP_EQ, whose), where(2, SCMP_CMP_EQ, 0)});
    // Whatever is attempted is to be told.
    filter.allow("rt_sigaction", {where(0, SCMP_CMP_NE, SIGSYS)});
    filter.rule(SCMP_ACT_ERRNO(EPERM), "rt_sigaction", {where(0, SCMP_CMP_EQ, SIGSYS)});
}

// Words go to the pipe of answers and to standard error; files handed over are sized and mapped.
void only_where_asked(Filter& filter, bool into_handed_files) {
    for (const char* call : {"write", "writev"}) {
        const scmp_datum_t last = kSanitized ? 1 << 20 : g_answers;
        filter.allow(call, {where(0, SCMP_CMP_LE, last)});
        filter.stop(call, {where(0, SCMP_CMP_GT, last)});
    }
    for (const char* call : {"fallocate", "ftruncate"}) {
        if (into_handed_files) filter.allow(call, {where(0, SCMP_CMP_GT, STDERR_FILENO)});
        filter.stop(call, {where(0, SCMP_CMP_LE, into_handed_files ? STDERR_FILENO : ~0u)});
    }
}

void some_options(Filter& filter) {
    for (const scmp_datum_t request : {TCGETS, FIONREAD})
        filter.allow("ioctl", {where(1, SCMP_CMP_EQ, request)});
    for (const scmp_datum_t order : {F_DUPFD, F_DUPFD_CLOEXEC, F_GETFD, F_SETFD, F_GETFL})
        filter.allow("fcntl", {where(1, SCMP_CMP_EQ, order)});
    for (const scmp_datum_t option :
         {PR_SET_NAME, PR_GET_NAME, PR_SET_NO_NEW_PRIVS, PR_GET_DUMPABLE, PR_SET_SECCOMP})
        filter.allow("prctl", {where(0, SCMP_CMP_EQ, option)});
}

Done confine_at_first(bool decodes) {
    Filter filter(SCMP_ACT_ERRNO(ENOSYS));
    for (const char* call : kHarmless)
        filter.allow(call);
    for (const Attempt& attempt : kForbidden)
        filter.stop(attempt.call);
    only_reading(filter, "open", 1);
    only_reading(filter, "openat", 2);
    only_where_asked(filter, decodes);
    some_options(filter);
    if (kSanitized) filter.allow("pipe"), filter.allow("pipe2");
    threads(filter, decodes);
    only_itself(filter);
    return filter.load();
}

Done confine_further() {
    Filter filter(SCMP_ACT_ALLOW);
    for (const char* call : {"open", "openat"})
        if (!kSanitized) filter.stop(call);
    threads(filter, false);
    return filter.load();
}

void know(std::size_t& at, std::span<const Attempt> attempts) {
    for (const Attempt& attempt : attempts)
        g_known[at++] = {seccomp_syscall_resolve_name(attempt.call), attempt};
}

} // namespace

Done confine(Confinement how) {
    if (how == Confinement::opens_nothing_more) return confine_further();
    g_answers = answer_pipe();
    std::size_t at = 0;
    know(at, kForbidden);
    know(at, kPartly);
    struct sigaction action {};
    action.sa_sigaction = tell_and_end;
    action.sa_flags = SA_SIGINFO;
    sigaction(SIGSYS, &action, nullptr);
    return confine_at_first(how == Confinement::reads_files);
}

} // namespace fettle
