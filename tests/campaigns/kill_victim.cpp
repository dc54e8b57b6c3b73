#include "campaigns/kill_victim.h"

#include "notebook/whole_book.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <stdexcept>
#include <thread>

namespace kill_campaign {

namespace fs = std::filesystem;
using fettle::Notebook;

void must_hold(bool holds, const std::string& what) {
    if (!holds) throw std::runtime_error(what);
}

Victim::Victim(const std::function<int()>& life) : pid_(fork()) {
    must_hold(pid_ >= 0, "no process can be started");
    if (pid_ == 0) _exit(life());
}

bool Victim::kill_after(Patience patience) {
    std::this_thread::sleep_for(patience);
    kill(pid_, SIGKILL);
    return ended_well();
}

bool Victim::ended_well() {
    int status = 0;
    waitpid(pid_, &status, 0);
    if (WIFEXITED(status) && WEXITSTATUS(status) > 1)
        must_hold(false, "a process ended with code " + std::to_string(WEXITSTATUS(status)));
    ended_by_itself_ = WIFEXITED(status);
    return ended_by_itself_ && WEXITSTATUS(status) == 0;
}

int become_verb(const fs::path& book, std::vector<std::string> arguments) {
    static std::string program = FETTLEBOOK_BIN_DIR "/fettlebook";
    arguments.insert(arguments.begin(), {program, "--notebook", book.string()});
    std::vector<char*> argv;
    for (auto& argument : arguments)
        argv.push_back(argument.data());
    argv.push_back(nullptr);
    const int nowhere = open("/dev/null", O_RDWR);
    for (int stream = 0; stream < 3; ++stream)
        dup2(nowhere, stream);
    execv(program.c_str(), argv.data());
    return 9;
}

bool verb_goes(const fs::path& book, const std::vector<std::string>& arguments) {
    return Victim([&] { return become_verb(book, arguments); }).ended_well();
}

Notebook opened(const fs::path& folder) {
    auto book = Notebook::open(folder, fettle::store::Access::write);
    must_hold(book.ok(), book ? "" : "it cannot be opened: " + book.failure().sentence);
    return std::move(*book);
}

std::string sound_content(const fs::path& folder) {
    const Notebook book = opened(folder);
    const auto wrong = notebook_tests::what_is_wrong_with(book);
    must_hold(wrong.empty(), "it is damaged: " + wrong);
    return notebook_tests::content_of(book);
}

void must_be_clean(const fs::path& folder) {
    must_hold(verb_goes(folder, {"check"}), "check finds something wrong in " + folder.string());
}

} // namespace kill_campaign
