// without_seccomp PROGRAM ARGUMENTS: runs a program as under a kernel that has no seccomp filters.
#include <seccomp.h>
#include <sys/prctl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>

int main(int count, char** arguments) {
    if (count < 2) return 2;
    const scmp_arg_cmp setting{0, SCMP_CMP_EQ, PR_SET_SECCOMP, 0};
    const scmp_filter_ctx filter = seccomp_init(SCMP_ACT_ALLOW);
    if (!filter || seccomp_rule_add(filter, SCMP_ACT_ERRNO(ENOSYS), SCMP_SYS(seccomp), 0) != 0 ||
        seccomp_rule_add(filter, SCMP_ACT_ERRNO(EINVAL), SCMP_SYS(prctl), 1, setting) != 0 ||
        seccomp_load(filter) != 0)
        return 3;
    execv(arguments[1], arguments + 1);
    std::perror(arguments[1]);
    return 4;
}
