package dev.splicebook.shop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.splicebook.web.Caller;
import dev.splicebook.web.FirmId;
import dev.splicebook.web.KeyId;
import dev.splicebook.web.ShopId;
import java.lang.reflect.Method;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.springframework.core.MethodParameter;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.web.context.request.ServletWebRequest;

class CallerArgumentsTest {

    private final CallerArguments arguments = new CallerArguments();
    private final MethodParameter parameter = new MethodParameter(asked(), 0);

    @AfterEach
    void forgetTheCaller() {
        SecurityContextHolder.clearContext();
    }

    @Test
    void givesTheCallerOfTheRequest() {
        Caller caller =
                new Caller(new FirmId(UUID.randomUUID()), new ShopId(UUID.randomUUID()), new KeyId(UUID.randomUUID()));
        SecurityContextHolder.getContext().setAuthentication(new CallerAuthentication(caller));

        assertThat(arguments.supportsParameter(parameter)).isTrue();
        assertThat(resolve()).isEqualTo(caller);
    }

    @Test
    void failsWhereTheRequestIsOpenToAll() {
        assertThatThrownBy(this::resolve)
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("open to all");
    }

    private Caller resolve() {
        return arguments.resolveArgument(parameter, null, new ServletWebRequest(new MockHttpServletRequest()), null);
    }

    private static Method asked() {
        try {
            return CallerArgumentsTest.class.getDeclaredMethod("endpoint", Caller.class);
        } catch (NoSuchMethodException e) {
            throw new IllegalStateException(e);
        }
    }

    static Caller endpoint(Caller caller) {
        return caller;
    }
}
