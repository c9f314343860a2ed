#pragma once

#include <QObject>
#include <QThreadPool>
#include <functional>
#include <memory>
#include <stop_token>

namespace rodway {

/// Runs work off the window's thread. A new request asks the one before to stop, and only the
/// newest one's answer is delivered, on the thread of this object.
class NewestRequest : public QObject {
  public:
    explicit NewestRequest(QObject* parent = nullptr);
    ~NewestRequest() override;

    /// `work` must read only what it was given; `deliver` may touch windows.
    template <typename Answer>
    void ask(std::function<Answer(std::stop_token)> work, std::function<void(Answer)> deliver) {
        start([work = std::move(work), deliver = std::move(deliver)](std::stop_token stop) {
            auto answer = std::make_shared<Answer>(work(std::move(stop)));
            return std::function<void()>([answer, deliver] { deliver(std::move(*answer)); });
        });
    }

    [[nodiscard]] bool busy() const { return busy_; }
    /// Asks what is under way to stop; its answer isn't delivered.
    void stop();

  private:
    /// Work that returns what is to be done with its answer.
    using Job = std::function<std::function<void()>(std::stop_token)>;
    void start(Job job);

    QThreadPool pool_;
    std::stop_source stop_;
    int newest_ = 0;
    bool busy_ = false;
};

} // namespace rodway
