// A disk of its own of so many KiB, where one may be mounted; else tests that want it are skipped.
#pragma once

#include "temp_folder.h"

#include <sys/mount.h>

#include <fstream>

class SmallDisk {
  public:
    explicit SmallDisk(int kib) {
        const auto size = "size=" + std::to_string(kib) + "k";
        mounted_ = mount("tmpfs", place_.path().c_str(), "tmpfs", 0, size.c_str()) == 0;
    }
    ~SmallDisk() {
        if (mounted_) umount2(place_.path().c_str(), MNT_DETACH);
    }
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;
    bool mounted() const { return mounted_; }
    std::filesystem::path operator/(const char* name) const { return place_ / name; }

    void fill() const {
        std::ofstream filler(place_ / "filler", std::ios::binary);
        while (filler.write("0123456789abcdef", 16).flush()) {
        }
    }
    void grow(int kib) const {
        const auto size = "size=" + std::to_string(kib) + "k";
        mount("tmpfs", place_.path().c_str(), "tmpfs", MS_REMOUNT, size.c_str());
    }
    void empty() const { std::filesystem::remove(place_ / "filler"); }

  private:
    TempFolder place_;
    bool mounted_ = false;
};
