package tickover.console;

import java.util.ArrayList;
import java.util.List;
import javafx.animation.AnimationTimer;
import javafx.scene.Node;
import tickover.console.model.LiveModel;

/**
 * The one pulse per screen frame that reads the latest snapshot, and has drawn whatever of it
 * shows.
 */
final class LivePulse extends AnimationTimer {
    /** No faster than this, frames per second: half of what most screens can. */
    private static final double MOST_FRAMES_HZ = 31;

    private record Drawer(Node node, Runnable work) {}

    private final LiveModel model;
    private final List<Drawer> drawers = new ArrayList<>();
    private long lastNs;

    LivePulse(LiveModel model) {
        this.model = model;
    }

    /** Has something drawn whenever there is a new snapshot and the node shows. */
    void draws(Node node, Runnable work) {
        drawers.add(new Drawer(node, work));
    }

    @Override
    public void handle(long nowNs) {
        if (nowNs - lastNs < 1e9 / MOST_FRAMES_HZ) {
            return;
        }
        lastNs = nowNs;
        if (!model.pulse()) {
            return;
        }
        for (Drawer drawer : drawers) {
            if (drawer.node().getScene() != null) {
                drawer.work().run();
            }
        }
    }
}
