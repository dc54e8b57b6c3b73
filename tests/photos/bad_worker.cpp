// A worker that misbehaves as the name of the file it is asked about says, for the decoder's tests.
#include "base/process.h"

#include <chrono>
#include <csignal>
#include <string>
#include <thread>

namespace {

fettle::Frame answer(const fettle::Frame& request) {
    const std::string file(reinterpret_cast<const char*>(request.blob.data()), request.blob.size());
    auto is_about = [&](const char* word) { return file.find(word) != std::string::npos; };
    if (is_about("crash")) {
        std::signal(SIGSEGV, SIG_DFL); // a sanitizer's handler would make an orderly exit of it
        std::raise(SIGSEGV);
    }
    if (is_about("leave")) std::exit(7);
    if (is_about("hang")) std::this_thread::sleep_for(std::chrono::hours(1));
    if (is_about("garbage")) return {"not JSON at all", {}};
    if (is_about("empty")) return {"{}", {}};
    if (is_about("short")) return {R"({"width":100,"height":100})", std::vector<std::byte>(100)};
    if (is_about("lies"))
        return {R"({"hash":"nonsense","bytes":1,"format":"JPEG","width":-1,"height":1})", {}};
    return {R"({"width":1,"height":1})", std::vector<std::byte>(4, std::byte{255})};
}

} // namespace

int main() {
    return fettle::serve_requests(answer);
}
