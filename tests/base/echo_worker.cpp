// A helper process for the tests of base/process.h: does what the request's text says.
#include "base/process.h"

#include <chrono>
#include <csignal>
#include <cstdio>
#include <thread>

int main() {
    std::signal(SIGSEGV, SIG_DFL); // AddressSanitizer would turn the crash into an orderly exit
    return fettle::serve_requests([](const fettle::Frame& request) {
        if (request.text == "crash") std::raise(SIGSEGV);
        if (request.text == "leave") std::exit(3);
        if (request.text == "hang") std::this_thread::sleep_for(std::chrono::hours(1));
        if (request.text == "print") std::puts("noise on standard output");
        return fettle::Frame{request.text, request.blob};
    });
}
