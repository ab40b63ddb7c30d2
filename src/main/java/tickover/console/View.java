package tickover.console;

import javafx.scene.Node;
import javafx.scene.input.KeyEvent;

/** One screen: controls, and keys that work wherever on it the focus is. */
interface View {
    /** What is shown. */
    Node node();

    /** Called each time it comes to be shown; where the keyboard should go. */
    Node first();

    /** Takes a key, or leaves it alone and returns false. */
    boolean pressed(KeyEvent e);
}
