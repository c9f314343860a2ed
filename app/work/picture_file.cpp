#include "app/work/picture_file.h"

#include <QCoreApplication>
#include <QFile>
#include <QImageReader>
#include <QtEndian>

namespace rodway {
namespace {

struct Pictures {
    Q_DECLARE_TR_FUNCTIONS(Pictures)
};

// Markers of a JPEG file, ISO/IEC 10918-1, table B.1.
constexpr int jpeg_start = 0xd8;
constexpr int jpeg_end = 0xd9;
constexpr int jpeg_scan = 0xda;
constexpr int jpeg_stuffed = 0x00;
constexpr int jpeg_restart_first = 0xd0;
constexpr int jpeg_restart_last = 0xd7;

int byte_at(const QByteArray& bytes, qsizetype at) {
    return static_cast<unsigned char>(bytes[at]);
}

/// Behind the coded picture that begins here: where its next marker's 0xff stands, or the end.
qsizetype behind_scan(const QByteArray& bytes, qsizetype at) {
    for (; at + 1 < bytes.size(); ++at) {
        if (byte_at(bytes, at) != 0xff) {
            continue;
        }
        const int marker = byte_at(bytes, at + 1);
        const bool inside = marker == jpeg_stuffed || marker == 0xff ||
                            (marker >= jpeg_restart_first && marker <= jpeg_restart_last);
        if (!inside) {
            return at;
        }
    }
    return bytes.size();
}

/// From segment to segment: a small picture inside one of them has an end of its own, which isn't
/// this file's.
bool jpeg_is_whole(const QByteArray& bytes) {
    qsizetype at = 2;
    while (at + 3 < bytes.size() && byte_at(bytes, at) == 0xff) {
        const int marker = byte_at(bytes, at + 1);
        if (marker == 0xff) { // a filling byte
            ++at;
            continue;
        }
        if (marker == jpeg_end) {
            return true;
        }
        at += 2 + qFromBigEndian<quint16>(bytes.constData() + at + 2);
        if (marker == jpeg_scan) {
            at = behind_scan(bytes, at);
        }
    }
    return at + 1 < bytes.size() && byte_at(bytes, at) == 0xff && byte_at(bytes, at + 1) == jpeg_end;
}

/// From chunk to chunk, PNG specification, section 5.
bool png_is_whole(const QByteArray& bytes) {
    qsizetype at = 8;
    while (at + 12 <= bytes.size()) {
        const qsizetype length = qFromBigEndian<quint32>(bytes.constData() + at);
        const bool end = bytes.mid(at + 4, 4) == "IEND";
        at += 12 + length;
        if (end) {
            return at <= bytes.size();
        }
    }
    return false;
}

} // namespace

PictureFile picture_file(const QString& path) {
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) {
        return PictureFile::not_there;
    }
    const QByteArray bytes = file.readAll();
    const bool jpeg =
        bytes.size() >= 2 && byte_at(bytes, 0) == 0xff && byte_at(bytes, 1) == jpeg_start;
    if (jpeg && !jpeg_is_whole(bytes)) {
        return PictureFile::cut_short;
    }
    if (bytes.startsWith("\x89PNG\r\n\x1a\n") && !png_is_whole(bytes)) {
        return PictureFile::cut_short;
    }
    // Made small, so that a picture of many megabytes is looked through in a moment.
    QImageReader reader(path);
    reader.setDecideFormatFromContent(true);
    if (const QSize size = reader.size(); size.isValid()) {
        reader.setScaledSize(size.scaled(64, 64, Qt::KeepAspectRatio));
    }
    return reader.read().isNull() ? PictureFile::no_picture : PictureFile::whole;
}

const QStringList& picture_suffixes() {
    static const QStringList suffixes = [] {
        QStringList all;
        for (const QByteArray& format : QImageReader::supportedImageFormats()) {
            all << QString::fromLatin1(format).toLower();
        }
        return all;
    }();
    return suffixes;
}

QString picture_filter() {
    QStringList patterns;
    for (const QString& suffix : picture_suffixes()) {
        patterns << QStringLiteral("*.%1 *.%2").arg(suffix, suffix.toUpper());
    }
    return Pictures::tr("Pictures (%1)").arg(patterns.join(' '));
}

} // namespace rodway
