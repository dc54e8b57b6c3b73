// A helper process for the tests of base/process.h and base/confine.h: does what the request's text
// says; shut off when it is started with the argument "confined".
#include "base/confine.h"
#include "base/process.h"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <thread>

namespace {

using fettle::Frame;

std::string path_in(const Frame& request) {
    return {reinterpret_cast<const char*>(request.blob.data()), request.blob.size()};
}

// As the decoder fills a file of tiles.
Frame fill(int file) {
    constexpr char kWords[] = "written by mapping";
    if (posix_fallocate(file, 0, sizeof kWords) != 0) return {"no room", {}};
    void* at = mmap(nullptr, sizeof kWords, PROT_READ | PROT_WRITE, MAP_SHARED, file, 0);
    if (at == MAP_FAILED) return {"not mapped", {}};
    std::memcpy(at, kWords, sizeof kWords);
    return {"filled", {}};
}

Frame read_file(const std::string& path) {
    std::string words;
    std::getline(std::ifstream(path), words);
    return {words, {}};
}

Frame open_files() {
    int open = 0;
    for (int file = 0; file < 1024; ++file)
        open += fcntl(file, F_GETFD) >= 0;
    return {std::to_string(open), {}};
}

Frame thread() {
    std::string answer;
    std::thread([&answer] { answer = "threaded"; }).join();
    return {answer, {}};
}

Frame answer(const Frame& request) {
    if (request.text == "crash") std::raise(SIGSEGV);
    if (request.text == "leave") std::exit(3);
    if (request.text == "hang") std::this_thread::sleep_for(std::chrono::hours(1));
    if (request.text == "print") std::puts("noise on standard output");
    if (request.text == "fill") return fill(request.file.descriptor());
    if (request.text == "read") return read_file(path_in(request));
    if (request.text == "thread") return thread();
    if (request.text == "open files") return open_files();
    const std::string path = path_in(request);
    if (request.text == "write") (void)open(path.c_str(), O_WRONLY | O_CREAT, 0600);
    if (request.text == "empty") (void)open(path.c_str(), O_RDONLY | O_TRUNC);
    if (request.text == "remove") (void)unlink(path.c_str());
    if (request.text == "rename") (void)rename(path.c_str(), (path + "2").c_str());
    if (request.text == "connect") (void)socket(AF_UNIX, SOCK_STREAM, 0);
    if (request.text == "fork" && fork() == 0) _exit(0);
    if (request.text == "overwrite") (void)pwrite(request.file.descriptor(), "x", 1, 0);
    return {request.text, request.blob};
}

} // namespace

int main(int count, char**) {
    std::signal(SIGSEGV, SIG_DFL); // AddressSanitizer would turn the crash into an orderly exit
    if (count > 1 && !fettle::confine(fettle::Confinement::reads_files)) return 4;
    return fettle::serve_requests(answer);
}
