// fettlebook-decode: the process that reads foreign picture files for Fettlebook. Takes questions
// on standard input and answers on standard output, in the frames of base/process.h. It reads files
// and writes none: tiles go into a file that it is handed open.
#include "base/confine.h"
#include "base/process.h"
#include "photos/reader.h"
#include "photos/sidecar_reading.h"
#include "photos/sidecar_wire.h"
#include "photos/wire.h"

#include <exception>
#include <new>

namespace {

using namespace fettle;
using namespace fettle::photos;

template <class T>
Frame framed(Result<T> answer) {
    return answer ? answer_frame(std::move(*answer)) : answer_frame(answer.failure());
}

std::filesystem::path file_of(const Frame& request) {
    return std::string(reinterpret_cast<const char*>(request.blob.data()), request.blob.size());
}

Frame answer(Reader& reader, const Frame& request) {
    auto question = question_from(request.text);
    if (!question) return answer_frame(question.failure());
    const auto file = file_of(request);
    switch (question->kind) {
    case Question::Kind::hash:
        return framed(reader.hash(file));
    case Question::Kind::look:
        return framed(reader.look(file));
    case Question::Kind::picture:
        return framed(reader.picture(file, question->longest_side));
    case Question::Kind::cut:
        return framed(reader.cut(file, request.file.descriptor()));
    case Question::Kind::region:
        return framed(reader.region(file, question->region));
    case Question::Kind::copy:
        return framed(reader.copy(file, question->longest_side));
    case Question::Kind::without_place:
        return framed(copy_without_place(file));
    case Question::Kind::sidecar:
    case Question::Kind::packet:
        break;
    }
    const auto wish = sidecar_wish_from(question->body);
    if (!wish) return answer_frame(wish.failure());
    if (question->kind == Question::Kind::packet) return framed(packet_for(file, *wish));
    return framed(sidecar_in_file(file, wish->lie));
}

} // namespace

#if defined(FETTLE_SANITIZED)
// The search for leaks at the end starts a process that stops this one, and a report with names one
// that looks them up: neither is allowed here.
extern "C" __attribute__((visibility("default"))) const char* __asan_default_options() {
    return "detect_leaks=0:symbolize=0";
}
extern "C" __attribute__((visibility("default"))) const char* __tsan_default_options() {
    return "symbolize=0";
}
#endif

int main() {
    // Where the kernel does not do it, resource limits are left; `calc --list` says so.
    (void)confine(Confinement::reads_files);
    Reader reader;
    return serve_requests([&](const Frame& request) -> Frame {
        try {
            return answer(reader, request);
        } catch (const std::bad_alloc&) {
            reader = Reader();
            return answer_frame(
                Failure{FailureKind::refused, spoken_name(file_of(request)) +
                                                  " needs more memory than the decoder may use."});
        } catch (const std::exception& error) {
            return answer_frame(
                Failure{FailureKind::plugin, "it met an error it did not expect", error.what()});
        }
    });
}
