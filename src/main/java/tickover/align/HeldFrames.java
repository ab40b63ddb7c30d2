package tickover.align;

import java.util.ArrayDeque;

/** Frames that came before the probe said what it is; the oldest are forgotten first. */
final class HeldFrames {
    private static final int MOST = 512;

    private final ArrayDeque<Runnable> frames = new ArrayDeque<>();
    private long forgotten;

    void hold(Runnable frame) {
        if (frames.size() == MOST) {
            frames.poll();
            forgotten++;
        }
        frames.add(frame);
    }

    void release() {
        while (!frames.isEmpty()) {
            frames.poll().run();
        }
    }

    void forget() {
        forgotten += frames.size();
        frames.clear();
    }

    int size() {
        return frames.size();
    }

    long forgotten() {
        return forgotten;
    }
}
