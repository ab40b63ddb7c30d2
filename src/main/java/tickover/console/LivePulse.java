package tickover.console;

import java.util.ArrayList;
import java.util.List;
import javafx.animation.AnimationTimer;
import javafx.scene.Node;
import tickover.console.model.LiveModel;

/**
 * The one pulse per screen frame that reads the latest snapshot, and has drawn whatever of it
 * shows. Who draws says how often.
 */
final class LivePulse extends AnimationTimer {
    private record Drawer(Node node, Runnable work) {}

    private final LiveModel model;
    private final List<Drawer> drawers = new ArrayList<>();

    LivePulse(LiveModel model) {
        this.model = model;
    }

    /** Has something done in every screen frame while there are snapshots and the node shows. */
    void draws(Node node, Runnable work) {
        drawers.add(new Drawer(node, work));
    }

    @Override
    public void handle(long nowNs) {
        model.pulse();
        if (model.frame().isEmpty()) {
            return;
        }
        for (Drawer drawer : drawers) {
            if (drawer.node().getScene() != null) {
                drawer.work().run();
            }
        }
    }
}
