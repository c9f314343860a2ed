#include "app/book/book_block.h"

namespace rodway {
namespace {

bool turns_direction(QChar one) {
    const char16_t code = one.unicode();
    return (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
}

} // namespace

QString printable(const QString& text) {
    QString clean;
    clean.reserve(text.size());
    for (qsizetype at = 0; at < text.size(); ++at) {
        const QChar one = text[at];
        if (one == u'\r' && at + 1 < text.size() && text[at + 1] == u'\n') {
            continue;
        }
        if (one == u'\n' || one == u'\r' || one == QChar::LineSeparator ||
            one == QChar::ParagraphSeparator) {
            clean += u'\n';
        } else if (one == u'\t') {
            clean += u' ';
        } else if (one.category() != QChar::Other_Control && !turns_direction(one)) {
            clean += one;
        }
    }
    return clean;
}

QString printable(const std::string& utf8) {
    return printable(QString::fromStdString(utf8));
}

} // namespace rodway
