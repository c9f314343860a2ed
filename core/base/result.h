#pragma once

#include <utility>
#include <variant>

#include "core/base/assert.h"
#include "core/base/error.h"

namespace rodway {

/// A value, or the error that stands in its place. Asking for the one that is absent is a bug.
template <typename T>
class [[nodiscard]] Result {
  public:
    Result(T value) : held_(std::in_place_index<0>, std::move(value)) {}
    Result(Error error) : held_(std::in_place_index<1>, std::move(error)) {}

    [[nodiscard]] bool ok() const { return held_.index() == 0; }
    explicit operator bool() const { return ok(); }

    const T& value() const& {
        RODWAY_ASSERT(ok());
        return *std::get_if<0>(&held_);
    }
    T&& value() && {
        RODWAY_ASSERT(ok());
        return std::move(*std::get_if<0>(&held_));
    }
    const T& operator*() const& { return value(); }
    /// By value, so that `for (… : *answer())` doesn't walk over what is gone.
    T operator*() && { return std::move(*this).value(); }
    const T* operator->() const { return &value(); }

    const Error& error() const {
        RODWAY_ASSERT(!ok());
        return *std::get_if<1>(&held_);
    }

  private:
    std::variant<T, Error> held_;
};

/// The answer of something that has no value to return.
struct Done {};

} // namespace rodway
