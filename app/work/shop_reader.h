#pragma once

#include <QObject>
#include <QThread>
#include <atomic>
#include <functional>
#include <memory>
#include <string>

#include "core/base/result.h"
#include "db/shop_file.h"

namespace rodway {

/// Reads one shop on a thread of its own, through a connection of its own that stays open: what
/// takes long doesn't hold the window up. Answers come in the order in which they were asked for,
/// on the thread of this object.
class ShopReader : public QObject {
  public:
    explicit ShopReader(QObject* parent = nullptr);
    /// Waits for what is being read.
    ~ShopReader() override;

    /// From now on this shop; empty: none. What was asked before is not answered any more.
    void read_from(const std::string& path);

    /// `work` must read only the shop and what it was given; `deliver` may touch windows. Without a
    /// shop nothing is answered. Errors: those of `work` and of `ShopFile::open_to_look`.
    template <typename Answer>
    void ask(std::function<Result<Answer>(ShopFile&)> work,
             std::function<void(Result<Answer>)> deliver) {
        start([work = std::move(work), deliver = std::move(deliver)](Result<ShopFile*> shop) {
            auto answer = std::make_shared<Result<Answer>>(shop ? work(**shop)
                                                                : Result<Answer>(shop.error()));
            return std::function<void()>([answer, deliver] { deliver(std::move(*answer)); });
        });
    }

  private:
    /// Work that returns what is to be done with its answer.
    using Job = std::function<std::function<void()>(Result<ShopFile*>)>;
    void start(Job job);

    struct There;
    std::string path_;
    std::atomic<int> shops_ = 0; ///< how many were read from; the newest one's answers count
    QThread thread_;
    std::unique_ptr<There> there_;
};

} // namespace rodway
