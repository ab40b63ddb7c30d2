package tickover.console;

import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.control.ScrollPane;

/** Brings what lies below the window's edge into view, without a mouse. */
final class PageScroll {
    /** How much of what is in view is left behind. */
    private static final double STEP_RATIO = 0.8;

    private PageScroll() {}

    /** Shows the begin of the page that a control is on. */
    static void toTop(Node control) {
        for (Parent p = control.getParent(); p != null; p = p.getParent()) {
            if (p instanceof ScrollPane pane) {
                pane.setVvalue(pane.getVmin());
            }
        }
    }

    /** Moves the page that has most out of view. */
    static void by(Parent screen, boolean down) {
        ScrollPane longest = null;
        for (Node node : screen.lookupAll(".scroll-pane")) {
            ScrollPane pane = (ScrollPane) node;
            if (hiddenPixels(pane) > (longest == null ? 0 : hiddenPixels(longest))) {
                longest = pane;
            }
        }
        if (longest != null) {
            double step =
                    STEP_RATIO * longest.getViewportBounds().getHeight() / hiddenPixels(longest);
            double next = longest.getVvalue() + (down ? step : -step);
            longest.setVvalue(Math.max(0, Math.min(1, next)));
        }
    }

    private static double hiddenPixels(ScrollPane pane) {
        return pane.getContent().getLayoutBounds().getHeight()
                - pane.getViewportBounds().getHeight();
    }
}
