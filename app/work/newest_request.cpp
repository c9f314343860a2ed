#include "app/work/newest_request.h"

namespace rodway {

NewestRequest::NewestRequest(QObject* parent) : QObject(parent) {
    pool_.setMaxThreadCount(1);
}

NewestRequest::~NewestRequest() {
    stop_.request_stop();
    pool_.waitForDone();
}

void NewestRequest::stop() {
    stop_.request_stop();
    ++newest_;
    busy_ = false;
}

void NewestRequest::start(Job job) {
    stop_.request_stop();
    stop_ = std::stop_source();
    busy_ = true;
    const int number = ++newest_;
    pool_.clear();
    pool_.start([this, number, stop = stop_.get_token(), job = std::move(job)] {
        if (stop.stop_requested()) {
            return;
        }
        auto finish = job(stop);
        // The answer is handed over on the window's thread; the destructor waits for this one.
        QMetaObject::invokeMethod(this, [this, number, finish = std::move(finish)] {
            if (number == newest_) {
                busy_ = false;
                finish();
            }
        });
    });
}

} // namespace rodway
