package dev.splicebook.shop;

import dev.splicebook.web.Caller;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.security.authentication.AbstractAuthenticationToken;

/** A request whose key was found. The key itself is not kept. */
final class CallerAuthentication extends AbstractAuthenticationToken {

    private static final long serialVersionUID = 1L;

    private final transient Caller caller;

    CallerAuthentication(Caller caller) {
        super(List.of());
        this.caller = caller;
        setAuthenticated(true);
    }

    @Override
    public Caller getPrincipal() {
        return caller;
    }

    @Override
    public @Nullable Object getCredentials() {
        return null;
    }

    @Override
    public String getName() {
        return caller.key().value().toString();
    }
}
