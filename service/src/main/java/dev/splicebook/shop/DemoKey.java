package dev.splicebook.shop;

/**
 * The key of the demo. It is known to all, which is why the bean, and with it the key, exists on the embedded database
 * only.
 */
public final class DemoKey {

    /** The key that README and examples use. */
    public static final String VALUE = "splicebook-demo-key";

    DemoKey() {}
}
