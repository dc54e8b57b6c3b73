#include "exif_block.h"

#include "noise.h"

#include <exiv2/exiv2.hpp>

namespace fettle::demo {

namespace {

void put_time(Exiv2::ExifData& exif, const std::string& taken) {
    const std::string moment = taken.substr(0, 19), hundredths = taken.substr(20, 2),
                      offset = taken.substr(22);
    exif["Exif.Image.DateTime"] = moment;
    for (const char* which : {"Original", "Digitized"}) {
        const std::string name = which;
        exif["Exif.Photo.DateTime" + name] = moment;
        exif["Exif.Photo.SubSecTime" + name] = hundredths;
        exif["Exif.Photo.OffsetTime" + name] = offset;
    }
}

void put_exposure(Exiv2::ExifData& exif, const Scene& scene, Phone phone) {
    const bool close = scene.camera.view_width < 140;
    const float light = scene.rig.lamp_colour.y;
    const int speed = light > 5 ? 160 : light > 3.2f ? 320 : 200;
    exif["Exif.Photo.ExposureTime"] = Exiv2::URational(1, close ? 40 : 60);
    exif["Exif.Photo.FNumber"] =
        phone == Phone::t2 ? Exiv2::URational(18, 10) : Exiv2::URational(28, 10);
    exif["Exif.Photo.ISOSpeedRatings"] = static_cast<uint16_t>(speed + 40 * (scene.seed % 4));
    exif["Exif.Photo.FocalLength"] =
        phone == Phone::t2 ? Exiv2::URational(425, 100) : Exiv2::URational(62, 10);
    exif["Exif.Photo.FocalLengthIn35mmFilm"] = static_cast<uint16_t>(phone == Phone::t2 ? 26 : 35);
    exif["Exif.Photo.Flash"] = static_cast<uint16_t>(16);
    exif["Exif.Photo.MeteringMode"] = static_cast<uint16_t>(2);
    exif["Exif.Photo.ColorSpace"] = static_cast<uint16_t>(1);
}

// Open moorland, no house within sight.
void put_place(Exiv2::ExifData& exif, uint32_t seed) {
    const auto step = static_cast<int>(seed % 7) * 11;
    exif["Exif.GPSInfo.GPSVersionID"] = "2 3 0 0";
    exif["Exif.GPSInfo.GPSLatitudeRef"] = "N";
    exif["Exif.GPSInfo.GPSLatitude"] = "55/1 2/1 " + std::to_string(3120 + step) + "/100";
    exif["Exif.GPSInfo.GPSLongitudeRef"] = "W";
    exif["Exif.GPSInfo.GPSLongitude"] = "2/1 31/1 " + std::to_string(1840 + step) + "/100";
    exif["Exif.GPSInfo.GPSAltitudeRef"] = "0";
    exif["Exif.GPSInfo.GPSAltitude"] = "412/1";
}

} // namespace

std::vector<unsigned char> with_exif(const std::vector<unsigned char>& jpeg, const Shot& shot,
                                     int width, int height) {
    const auto image = Exiv2::ImageFactory::open(jpeg.data(), static_cast<long>(jpeg.size()));
    image->readMetadata();
    Exiv2::ExifData exif;
    const Scene scene = shot.scene();
    exif["Exif.Image.Make"] = shot.phone == Phone::t2 ? "Tarnlight" : "Wharnscope";
    exif["Exif.Image.Model"] = shot.phone == Phone::t2 ? "Tarnlight T2" : "Wharnscope P4";
    exif["Exif.Image.Orientation"] = static_cast<uint16_t>(shot.orientation);
    exif["Exif.Image.XResolution"] = Exiv2::URational(72, 1);
    exif["Exif.Image.YResolution"] = Exiv2::URational(72, 1);
    exif["Exif.Image.ResolutionUnit"] = static_cast<uint16_t>(2);
    exif["Exif.Photo.PixelXDimension"] = static_cast<uint32_t>(width);
    exif["Exif.Photo.PixelYDimension"] = static_cast<uint32_t>(height);
    put_time(exif, shot.taken);
    put_exposure(exif, scene, shot.phone);
    if (shot.on_the_moor) put_place(exif, scene.seed);
    image->setExifData(exif);
    image->writeMetadata();
    Exiv2::BasicIo& io = image->io();
    io.open();
    const Exiv2::DataBuf bytes = io.read(static_cast<long>(io.size()));
    return {bytes.pData_, bytes.pData_ + bytes.size_};
}

} // namespace fettle::demo
