#include "jpeg_file.h"

#include <turbojpeg.h>

#include <memory>
#include <stdexcept>

namespace fettle::demo {

namespace {

struct CloseEncoder {
    void operator()(void* handle) const { tjDestroy(handle); }
};
struct FreeBytes {
    void operator()(unsigned char* bytes) const { tjFree(bytes); }
};

} // namespace

std::vector<unsigned char> jpeg_of(const Pixels& pixels, size_t most) {
    const std::unique_ptr<void, CloseEncoder> encoder(tjInitCompress());
    if (!encoder) throw std::runtime_error("the JPEG encoder does not start");
    for (int quality = 84;; quality -= 3) {
        unsigned char* bytes = nullptr;
        unsigned long size = 0;
        const int failed = tjCompress2(encoder.get(), pixels.rgb.data(), pixels.width, 0,
                                       pixels.height, TJPF_RGB, &bytes, &size, TJSAMP_420, quality,
                                       TJFLAG_ACCURATEDCT | TJFLAG_PROGRESSIVE);
        const std::unique_ptr<unsigned char, FreeBytes> owner(bytes);
        if (failed != 0) throw std::runtime_error(tjGetErrorStr2(encoder.get()));
        if (size <= most || quality <= 40) return {bytes, bytes + size};
    }
}

} // namespace fettle::demo
