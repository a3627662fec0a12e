#pragma once
#include <unistd.h>

namespace feed::io {

/// Closes the descriptor when it goes out of scope.
class Descriptor {
public:
    explicit Descriptor(int number) noexcept : number_(number) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    int get() const noexcept { return number_; }

private:
    int number_;
};

}  // namespace feed::io
