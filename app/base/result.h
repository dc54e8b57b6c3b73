// What an operation gives back: a value, or a Failure that a person can read.
//
// Every sentence names the field, the value and what is accepted, or what to do next; it goes to
// the screen or to stderr as it stands. Exceptions are kept for broken invariants and for the
// standard library; they are caught at the edges only (main, a verb, a worker's loop, a C
// callback).
#pragma once

#include <cassert>
#include <string>
#include <utility>
#include <variant>

namespace fettle {

enum class FailureKind {
    invalid,   // the user's input cannot be taken as it is
    not_found, // a name, tag, id or file that isn't there
    refused,   // understood, but against a rule
    busy,      // somebody else holds it
    damaged,   // a file or database does not read as it should
    newer,     // written by a later version of the program
    io,        // disk, pipe, permission
    plugin,    // a calculation plugin misbehaved
    cancelled, // the user pressed stop
};

struct Failure {
    FailureKind kind = FailureKind::invalid;
    std::string sentence;    // for a person; complete, without trailing newline
    std::string detail = {}; // for whoever mends it: library message, path, errno
};

template <class T>
class [[nodiscard]] Result {
  public:
    Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}
    Result(Failure failure) : state_(std::in_place_index<1>, std::move(failure)) {}

    bool ok() const { return state_.index() == 0; }
    explicit operator bool() const { return ok(); }

    // Precondition: ok().
    T& value() & { return assert(ok()), *std::get_if<0>(&state_); }
    const T& value() const& { return assert(ok()), *std::get_if<0>(&state_); }
    T&& value() && { return assert(ok()), std::move(*std::get_if<0>(&state_)); }
    T& operator*() & { return value(); }
    const T& operator*() const& { return value(); }
    T&& operator*() && { return std::move(*this).value(); }
    T* operator->() { return &value(); }
    const T* operator->() const { return &value(); }

    // Precondition: !ok().
    const Failure& failure() const& { return assert(!ok()), *std::get_if<1>(&state_); }

  private:
    std::variant<T, Failure> state_;
};

struct Nothing {};
using Done = Result<Nothing>;
inline Done done() {
    return Nothing{};
}

} // namespace fettle
