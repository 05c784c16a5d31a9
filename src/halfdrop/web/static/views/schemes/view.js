import { html } from "../../lib/html.js";
export default { id: "schemes", title: "Schemes", needs: "job", render: () => html`` };
