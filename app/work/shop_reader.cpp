#include "app/work/shop_reader.h"

#include <optional>

namespace rodway {

/// What lives on the other thread.
struct ShopReader::There {
    QObject context; ///< what is invoked on it runs there
    std::string path;
    std::optional<ShopFile> shop;

    /// The open shop; opened anew if another file stands under its name now.
    Result<ShopFile*> opened(const std::string& wanted) {
        const bool same = shop && path == wanted && (shop->look_only() || shop->still_there());
        if (!same) {
            shop.reset();
            auto again = ShopFile::open_to_look(wanted);
            if (!again) {
                return again.error();
            }
            shop.emplace(std::move(again).value());
            path = wanted;
        }
        return &*shop;
    }
};

ShopReader::ShopReader(QObject* parent) : QObject(parent), there_(std::make_unique<There>()) {
    there_->context.moveToThread(&thread_);
    thread_.setObjectName("shop reader");
    thread_.start();
}

ShopReader::~ShopReader() {
    read_from({});
    // A connection is closed on the thread that made it; what was asked before goes by unread.
    QMetaObject::invokeMethod(
        &there_->context, [this] { there_->context.moveToThread(thread()); },
        Qt::BlockingQueuedConnection);
    thread_.quit();
    thread_.wait();
}

void ShopReader::read_from(const std::string& path) {
    ++shops_;
    path_ = path;
    QMetaObject::invokeMethod(&there_->context, [this] { there_->shop.reset(); });
}

void ShopReader::start(Job job) {
    if (path_.empty()) {
        return;
    }
    const int asked_of = shops_;
    QMetaObject::invokeMethod(
        &there_->context, [this, asked_of, path = path_, job = std::move(job)] {
            if (asked_of != shops_) {
                return;
            }
            auto finish = job(there_->opened(path));
            // Handed over on this object's thread; the destructor waits for this one.
            QMetaObject::invokeMethod(this, [this, asked_of, finish = std::move(finish)] {
                if (asked_of == shops_) {
                    finish();
                }
            });
        });
}

} // namespace rodway
