// One question at a time, answered beside the event loop: the newest wins, the window never waits.
#pragma once

#include <QObject>
#include <QThreadPool>
#include <atomic>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace kerfdraft::desk {

class Aside : public QObject {
  Q_OBJECT

 public:
  /// Asked now and then while a long answer is made: false once nobody waits for it.
  using Wanted = std::function<bool()>;
  using Work = std::function<std::vector<std::string>(const Wanted& wanted)>;
  using Tell = std::function<void(const std::vector<std::string>& lines)>;

  explicit Aside(QObject* parent = nullptr);
  ~Aside() override;

  /// Does the work in another thread and tells its lines in this one, unless it was overtaken or dropped.
  void ask(Work work, Tell tell);
  /// What is under way is no longer wanted.
  void drop();
  bool isBusy() const { return busy_; }

 private:
  std::atomic<std::uint64_t> newest_{0};
  bool busy_ = false;
  QThreadPool pool_;
};

}  // namespace kerfdraft::desk
